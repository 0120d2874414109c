//! What either command is told.

use std::path::PathBuf;
use std::time::Duration;

use levertrain_core::words::{Catalogue, LANGUAGES, said, word};

/// Most threads.
const MOST_THREADS: usize = 1024;
/// How often it is kept where the search stands, if nothing else is said: no more than that is lost.
const SAVE_EVERY: Duration = Duration::from_secs(5);
/// What may be said, in seconds.
const SAVES: (f64, f64) = (0.01, 86_400.0);

/// In what the commands differ.
pub struct Command {
    /// The message that tells how it is used.
    pub usage: &'static str,
    /// Most shards: more would have nothing to do.
    pub most_shards: usize,
    /// Whether it knows `--threads`.
    pub has_threads: bool,
}

pub struct Options {
    pub task: Option<String>,
    /// Which shard, from 0, and of how many; none for the whole.
    pub shard: Option<(usize, usize)>,
    pub merge: Vec<String>,
    pub out: Option<PathBuf>,
    pub threads: usize,
    /// Whether it is only told how long it would take.
    pub only_estimate: bool,
    /// How often it is kept where the search stands.
    pub save_every: Duration,
}

impl Command {
    /// The options; what is wrong with the arguments, if anything, in a line.
    pub fn read(&self, mut arguments: impl Iterator<Item = String>) -> Result<Options, String> {
        let mut options = Options {
            task: None,
            shard: None,
            merge: Vec::new(),
            out: None,
            threads: std::thread::available_parallelism().map_or(1, usize::from),
            only_estimate: false,
            save_every: SAVE_EVERY,
        };
        while let Some(argument) = arguments.next() {
            let mut value = || {
                let missing = || self.misused(&said("cli-needs-value", &[("option", &*argument)]));
                arguments.next().ok_or_else(missing)
            };
            match argument.as_str() {
                "--shard" => options.shard = Some(self.shard(&value()?)?),
                "--threads" if self.has_threads => options.threads = self.threads(&value()?)?,
                "--estimate" => options.only_estimate = true,
                "--save-every" => options.save_every = self.save_every(&value()?)?,
                "--out" => options.out = Some(PathBuf::from(value()?)),
                "--merge" => options.merge = value()?.split(',').map(str::to_owned).collect(),
                "--language" => self.speak(&value()?)?,
                option if option.starts_with("--") => {
                    let values = [("option", option)];
                    return Err(self.misused(&said("cli-unknown-option", &values)));
                }
                _ if options.task.is_some() => return Err(self.misused(word("cli-one-file"))),
                _ => options.task = Some(argument),
            }
        }
        Ok(options)
    }

    /// What is wrong with the arguments, and how they are meant.
    pub fn misused(&self, what: &str) -> String {
        let values = [("what", what), ("usage", word(self.usage))];
        said("cli-misused", &values)
    }

    fn speak(&self, code: &str) -> Result<(), String> {
        let Some(catalogue) = Catalogue::of_language(code) else {
            let names = LANGUAGES.join(", ");
            let values = [("found", code), ("names", &*names)];
            return Err(self.misused(&said("cli-language", &values)));
        };
        catalogue.speak();
        Ok(())
    }

    fn shard(&self, text: &str) -> Result<(usize, usize), String> {
        let numbers = text.split_once('/').and_then(|(which, of)| {
            let (which, of) = (which.parse::<usize>().ok()?, of.parse::<usize>().ok()?);
            (1..=of).contains(&which).then(|| (which - 1, of))
        });
        numbers
            .filter(|(_, of)| *of <= self.most_shards)
            .ok_or_else(|| {
                let most = self.most_shards.to_string();
                let values = [("found", text), ("most", &*most)];
                self.misused(&said("cli-search-shard", &values))
            })
    }

    fn threads(&self, text: &str) -> Result<usize, String> {
        let count = text.parse::<usize>().ok();
        let count = count.filter(|count| (1..=MOST_THREADS).contains(count));
        count.ok_or_else(|| {
            let most = MOST_THREADS.to_string();
            let values = [("found", text), ("most", &*most)];
            self.misused(&said("cli-search-threads", &values))
        })
    }

    fn save_every(&self, text: &str) -> Result<Duration, String> {
        let (least, most) = SAVES;
        let seconds = text.parse::<f64>().ok();
        let seconds = seconds.filter(|seconds| (least..=most).contains(seconds));
        seconds.map(Duration::from_secs_f64).ok_or_else(|| {
            let [least, most] = [least, most].map(|end| end.to_string());
            let values = [("found", text), ("least", &*least), ("most", &*most)];
            self.misused(&said("cli-search-save", &values))
        })
    }
}
