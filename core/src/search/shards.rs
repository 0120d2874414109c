//! Files of shards: what the first line of each says, and whether those that are merged are one whole search.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::base::problem::Problem;
use crate::json::{Read, Value, read_fields, strict};

/// Most shards of a search, which divides into about a thousand pieces: more would have nothing to do, and those that are
/// missing could not be told one by one.
const MOST_SHARDS: u32 = 1000;

/// Which shard of which search a file is of, and what has become of its candidates: the first line of the file, before
/// those of what was found. Other versions may divide a search otherwise, so that their shards make no whole with ours.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ShardMark {
    /// The format number of the search: another one where it is divided otherwise.
    pub format: u32,
    /// Tells what is asked from all else.
    pub task: String,
    /// Which shard it is, from 1, and of how many.
    pub shard: Vec<u32>,
    /// What has become of all that it went through, as texts, since numbers in JSON are not exact so far.
    pub counts: Vec<String>,
    /// Whether it ended early, as there was more than is kept.
    pub full: bool,
}

read_fields!(ShardMark {
    format,
    task,
    shard,
    counts,
    full
});

impl ShardMark {
    /// Of a shard, from 0, of so many.
    pub(crate) fn new(
        format: u32,
        task: String,
        (which, count): (usize, usize),
        counts: &[u128],
        full: bool,
    ) -> Self {
        Self {
            format,
            task,
            shard: vec![which as u32 + 1, count as u32],
            counts: counts.iter().map(u128::to_string).collect(),
            full,
        }
    }

    /// It as a line.
    pub fn line(&self) -> String {
        // Whole numbers and texts always can be written.
        serde_json::to_string(self).unwrap_or_default()
    }

    fn read_line(text: &str, format: u32) -> Result<Self, Problem> {
        let mut problems = Vec::new();
        let value = strict(text).map_err(|_| no_mark())?;
        if !matches!(value, Value::Object(_)) {
            return Err(no_mark());
        }
        check_format(&value, format)?;
        let read = Self::read(value, "", &mut problems);
        let mark = read.filter(|_| problems.is_empty()).ok_or_else(no_mark)?;
        let [which, count] = mark.shard[..] else {
            return Err(no_mark());
        };
        let is_one = count <= MOST_SHARDS && (1..=count).contains(&which);
        is_one.then_some(mark).ok_or_else(no_mark)
    }
}

/// Whether what is read was written in this format.
///
/// # Errors
/// The problem to tell where it was not.
pub(crate) fn check_format(value: &Value, format: u32) -> Result<(), Problem> {
    let Value::Object(fields) = value else {
        return Ok(());
    };
    let found = fields.iter().find(|(name, _)| name == "format");
    match found {
        Some((_, found)) if *found != Value::Whole(format.into()) => Err(Problem::of(
            "format",
            (
                "problem-other-version",
                &[("found", &found.quoted()), ("format", &format.to_string())],
            ),
            ("fix-other-version", &[]),
        )),
        _ => Ok(()),
    }
}

fn no_mark() -> Problem {
    Problem::of("", ("problem-no-mark", &[]), ("fix-other-version", &[]))
}

/// The files of shards that are merged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShardMerge {
    format: u32,
    task: Option<String>,
    count: Option<u32>,
    marks: BTreeMap<u32, ShardMark>,
}

impl ShardMerge {
    /// Of shards in this format; of this task, if it is known.
    pub fn new(format: u32, task: Option<String>) -> Self {
        Self {
            format,
            task,
            count: None,
            marks: BTreeMap::new(),
        }
    }

    /// Takes in the first line of a file.
    ///
    /// # Errors
    /// That it is of another version, of no shard, or of a shard of something else than those before.
    pub fn take(&mut self, line: &str) -> Result<(), Problem> {
        let mark = ShardMark::read_line(line, self.format)?;
        let (which, count) = (mark.shard[0], mark.shard[1]);
        if *self.task.get_or_insert_with(|| mark.task.clone()) != mark.task {
            let fix = ("fix-other-task", &[][..]);
            return Err(Problem::of("task", ("problem-other-task", &[]), fix));
        }
        let known = *self.count.get_or_insert(count);
        if known != count {
            let [known, count] = [known, count].map(|count| count.to_string());
            return Err(Problem::of(
                "",
                (
                    "problem-other-count",
                    &[("count", &*count), ("known", &*known)],
                ),
                ("fix-other-count", &[]),
            ));
        }
        self.marks.insert(which, mark);
        Ok(())
    }

    /// What has become of all that the shards went through together, and whether one of them ended early.
    ///
    /// # Errors
    /// Which shards are missing.
    pub fn whole(&self) -> Result<(Vec<u128>, bool), Problem> {
        let count = self.count.unwrap_or(1);
        let missing = (1..=count).filter(|which| !self.marks.contains_key(which));
        let missing: Vec<String> = missing.map(|which| format!("{which}/{count}")).collect();
        if !missing.is_empty() {
            return Err(Problem::of(
                "task",
                ("problem-missing-shards", &[("shards", &missing.join(", "))]),
                ("fix-missing-shards", &[]),
            ));
        }
        let mut sums = Vec::new();
        for mark in self.marks.values() {
            sums.resize(sums.len().max(mark.counts.len()), 0_u128);
            for (sum, count) in sums.iter_mut().zip(&mark.counts) {
                *sum = sum.saturating_add(count.parse().unwrap_or(0));
            }
        }
        Ok((sums, self.marks.values().any(|mark| mark.full)))
    }
}

/// Tells one text from others: FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo, 1991; from memory).
#[derive(Debug, Clone, Copy)]
pub(crate) struct Digest(u64);

impl Digest {
    pub(crate) const fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    pub(crate) fn put(&mut self, bytes: &[u8]) {
        for &byte in bytes {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }

    /// Takes in what another one tells.
    pub(crate) fn put_all(&mut self, other: Self) {
        self.put(&other.0.to_le_bytes());
    }

    pub(crate) fn text(self) -> String {
        format!("{:016x}", self.0)
    }
}
