//! Going through a search in threads: how long it takes, how far it is, and where it stands, so that it can be gone on with.

use std::time::{Duration, Instant};

use levertrain_core::search::Search;
use levertrain_core::words::said;

use crate::amounts::{duration, large};
use crate::standing::Standing;
use crate::told;

/// Boxes of each thread between looks at the clock.
const BOXES: usize = 5000;
/// How often progress is told.
const NEWS: Duration = Duration::from_secs(2);
/// How long it goes on before it says how long it will take.
const PROBE: Duration = Duration::from_millis(250);
/// Dives by which the number of boxes is told: some hundredths of a second, which every shard takes again.
const DIVES: u32 = 500;

/// Has a search go on where it stood, if it was interrupted.
pub fn resume(search: &mut Search, standing: &Standing) -> Result<(), String> {
    let Some(text) = standing.read()? else {
        return Ok(());
    };
    let told = |problems: Vec<_>| told(&standing.name(), &problems);
    search.resume(&text).map_err(told)?;
    let percent = percent(search);
    eprintln!("{}", said("cli-search-resumed", &[("percent", &*percent)]));
    Ok(())
}

/// Goes through a search, which is one of so many shards, in so many threads. Where only an estimate is asked for it ends with that.
pub fn go_through(
    search: Search,
    shards: usize,
    threads: usize,
    mut standing: Option<&mut Standing>,
    only_estimate: bool,
) -> Result<Search, String> {
    let before = search.counts().boxes;
    let all = search.own_candidates();
    let mut parts = search.parts(threads);
    let begin = Instant::now();
    let mut news = begin + NEWS;
    let mut is_told = false;
    loop {
        let is_done = Search::run_at_once(&mut parts, if is_told { BOXES } else { BOXES / 10 });
        let now = Instant::now();
        if !is_told && (is_done || now > begin + PROBE) {
            is_told = true;
            let done: u64 = parts.iter().map(|part| part.counts().boxes).sum();
            let rate = (done - before).max(1) as f64 / (now - begin).as_secs_f64().max(1e-6);
            if only_estimate || !is_done {
                let boxes = (parts[0].estimate(DIVES).boxes / shards as f64).max(1.0);
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
        if let Some(standing) = &mut standing {
            standing.keep(|| Search::checkpoint(&parts))?;
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
