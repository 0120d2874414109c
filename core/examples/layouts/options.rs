//! What the command is told.

use std::path::PathBuf;
use std::time::Duration;

use levertrain_core::words::{Catalogue, LANGUAGES, said, word};

/// Most shards: more would have nothing to do.
const MOST_SHARDS: usize = 64;

/// How often it is kept where the search stands, if nothing else is said: no more than that is lost.
const SAVE_EVERY: Duration = Duration::from_secs(5);
/// What may be said, in seconds.
const SAVES: (f64, f64) = (0.01, 86_400.0);

pub struct Options {
    /// The task; none where files of shards are merged.
    pub task: Option<String>,
    /// Which shard, from 0, and of how many.
    pub shard: (usize, usize),
    pub merge: Vec<String>,
    pub out: Option<PathBuf>,
    /// Whether it is only told how long it would take.
    pub only_estimate: bool,
    /// How often it is kept where the search stands.
    pub save_every: Duration,
}

impl Options {
    /// What is wrong with the arguments, if anything, in a line.
    pub fn read(mut arguments: impl Iterator<Item = String>) -> Result<Self, String> {
        let mut options = Self {
            task: None,
            shard: (0, 1),
            merge: Vec::new(),
            out: None,
            only_estimate: false,
            save_every: SAVE_EVERY,
        };
        while let Some(argument) = arguments.next() {
            let mut value = || {
                let missing = || misused(&said("cli-needs-value", &[("option", &*argument)]));
                arguments.next().ok_or_else(missing)
            };
            match argument.as_str() {
                "--shard" => options.shard = shard_of(&value()?)?,
                "--estimate" => options.only_estimate = true,
                "--save-every" => options.save_every = save_every_of(&value()?)?,
                "--out" => options.out = Some(PathBuf::from(value()?)),
                "--merge" => options.merge = value()?.split(',').map(str::to_owned).collect(),
                "--language" => speak(&value()?)?,
                option if option.starts_with("--") => {
                    return Err(misused(&said("cli-unknown-option", &[("option", option)])));
                }
                _ if options.task.is_some() => return Err(misused(word("cli-one-file"))),
                _ => options.task = Some(argument),
            }
        }
        // Either a task is gone through, or what its shards wrote is merged.
        match options.task.is_some() == options.merge.is_empty() {
            true => Ok(options),
            false => Err(misused(word("cli-layouts-no-task"))),
        }
    }
}

fn misused(what: &str) -> String {
    let values = [("what", what), ("usage", word("cli-layouts-usage"))];
    said("cli-misused", &values)
}

fn speak(code: &str) -> Result<(), String> {
    let Some(catalogue) = Catalogue::of_language(code) else {
        let names = LANGUAGES.join(", ");
        let values = [("found", code), ("names", &*names)];
        return Err(misused(&said("cli-language", &values)));
    };
    catalogue.speak();
    Ok(())
}

fn shard_of(text: &str) -> Result<(usize, usize), String> {
    let numbers = text.split_once('/').and_then(|(which, of)| {
        let (which, of) = (which.parse::<usize>().ok()?, of.parse::<usize>().ok()?);
        (1..=of).contains(&which).then(|| (which - 1, of))
    });
    numbers.filter(|(_, of)| *of <= MOST_SHARDS).ok_or_else(|| {
        let most = MOST_SHARDS.to_string();
        let values = [("found", text), ("most", &*most)];
        misused(&said("cli-search-shard", &values))
    })
}

fn save_every_of(text: &str) -> Result<Duration, String> {
    let (least, most) = SAVES;
    let seconds = text.parse::<f64>().ok();
    let seconds = seconds.filter(|seconds| (least..=most).contains(seconds));
    seconds.map(Duration::from_secs_f64).ok_or_else(|| {
        let [least, most] = [least, most].map(|end| end.to_string());
        let values = [("found", text), ("least", &*least), ("most", &*most)];
        misused(&said("cli-search-save", &values))
    })
}
