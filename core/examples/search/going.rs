//! Going through a search in threads: how long it takes, how far it is, and where it stands, so that it can be gone on with.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use levertrain_core::search::Search;
use levertrain_core::words::said;

use crate::{read, told};

/// Boxes of each thread between looks at the clock.
const BOXES: usize = 5000;
/// How often progress is told.
const NEWS: Duration = Duration::from_secs(2);
/// How long it goes on before it says how long it will take.
const PROBE: Duration = Duration::from_millis(250);
/// Dives by which the number of boxes is told beforehand.
const DIVES: u32 = 2000;

/// Where a search stands that writes to a file: beside that.
pub struct Standing {
    file: PathBuf,
    /// How often it is written.
    every: Duration,
}

impl Standing {
    /// Beside the file that the finds will be in.
    pub fn beside(out: &Path, every: Duration) -> Self {
        let mut name = out.as_os_str().to_owned();
        name.push(".state");
        Self {
            file: name.into(),
            every,
        }
    }

    /// Has a search go on where it stood, if it was interrupted.
    pub fn resume(&self, search: &mut Search) -> Result<(), String> {
        if !self.file.exists() {
            return Ok(());
        }
        let name = self.file.to_string_lossy();
        let text = read(&name)?;
        search
            .resume(&text)
            .map_err(|problems| told(&name, &problems))?;
        let percent = percent(search);
        eprintln!("{}", said("cli-search-resumed", &[("percent", &*percent)]));
        Ok(())
    }

    /// Written under another name first, so that there is always a whole one.
    fn keep(&self, parts: &[Search]) -> io::Result<()> {
        let mut new = self.file.as_os_str().to_owned();
        new.push(".new");
        fs::write(&new, Search::checkpoint(parts))?;
        fs::rename(&new, &self.file)
    }

    /// Once the finds are written there is nothing to go on with.
    pub fn forget(&self) {
        // Where there is none, the search ended before one was kept.
        let _ = fs::remove_file(&self.file);
    }
}

/// Goes through a search, in so many threads. Where only an estimate is asked for it ends with that.
pub fn go_through(
    search: Search,
    threads: usize,
    standing: Option<&Standing>,
    only_estimate: bool,
) -> Result<Search, String> {
    let estimate = search.estimate(DIVES);
    // Those of a shard are its part of all.
    let share = search.own_candidates() as f64 / search.candidates() as f64;
    let before = search.counts().boxes;
    let all = search.own_candidates();
    let mut parts = search.parts(threads);
    let begin = Instant::now();
    let mut news = begin + NEWS;
    let mut kept = begin;
    let mut is_told = false;
    loop {
        let is_done = Search::run_at_once(&mut parts, if is_told { BOXES } else { BOXES / 10 });
        let now = Instant::now();
        if !is_told && (is_done || now > begin + PROBE) {
            is_told = true;
            let done: u64 = parts.iter().map(|part| part.counts().boxes).sum();
            let rate = (done - before).max(1) as f64 / (now - begin).as_secs_f64().max(1e-6);
            let boxes = (estimate.boxes * share).max(1.0);
            if only_estimate || !is_done {
                let took = if is_done {
                    (now - begin).as_secs_f64()
                } else {
                    boxes / rate
                };
                tell_estimate(all, boxes, took, threads);
            }
            if only_estimate {
                break;
            }
        }
        if is_done {
            break;
        }
        if now > news {
            let found = parts[0].finds().len().to_string();
            let counts = parts.iter().map(Search::counts);
            let done: u128 = counts.map(|c| c.outside + c.beaten + c.tried).sum();
            let percent = in_percent(done, all);
            let candidates = large(all as f64);
            let values = [
                ("percent", &*percent),
                ("all", &candidates),
                ("found", &found),
            ];
            eprintln!("{}", said("cli-search-progress", &values));
            news = now + NEWS;
        }
        if let Some(standing) = standing.filter(|standing| now > kept + standing.every) {
            standing
                .keep(&parts)
                .map_err(|error| said("cli-unwritten", &[("error", &error.to_string())]))?;
            kept = Instant::now();
        }
    }
    Search::joined(parts).ok_or_else(String::new)
}

fn tell_estimate(all: u128, boxes: f64, seconds: f64, threads: usize) {
    let (all, boxes) = (large(all as f64), large(boxes));
    let (time, threads) = (duration(seconds), threads.to_string());
    let values = [
        ("all", &*all),
        ("boxes", &*boxes),
        ("time", &*time),
        ("threads", &*threads),
    ];
    eprintln!("{}", said("cli-search-estimate", &values));
}

/// A time as people say it, with two figures.
fn duration(seconds: f64) -> String {
    let units = [
        ("seconds", 1.0),
        ("minutes", 60.0),
        ("hours", 3600.0),
        ("days", 86_400.0),
        ("years", 31_557_600.0),
    ];
    let fits = units.iter().rev().find(|(_, size)| seconds >= 2.0 * size);
    let (unit, size) = fits.unwrap_or(&units[0]);
    let value = seconds / size;
    let number = match value {
        value if value >= 1e6 => large(value),
        value if value >= 10.0 => format!("{value:.0}"),
        value => format!("{value:.1}"),
    };
    said("duration", &[("unit", *unit), ("number", &number)])
}

/// How much of its own candidates a search has gone through.
fn percent(search: &Search) -> String {
    let counts = search.counts();
    in_percent(
        counts.outside + counts.beaten + counts.tried,
        search.own_candidates(),
    )
}

fn in_percent(done: u128, all: u128) -> String {
    format!("{:.1}", 100.0 * done as f64 / all.max(1) as f64)
}

pub fn large(count: f64) -> String {
    format!("{count:.3e}")
}
