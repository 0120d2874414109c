//! Where a search for layouts stands, as a text from which it is gone on with later, or elsewhere.

use serde::Serialize;

use super::found::LayoutFound;
use super::frame::{Pairs, each};
use super::search::{LayoutCounts, LayoutSearch};
use crate::base::problem::Problem;
use crate::edit::text;
use crate::json::{Read, read_fields, strict};
use crate::model::coupling::SetTeeth;
use crate::search::{Digest, ShardMark, ShardMerge, check_format, other_search, teeth_of};
use crate::teach::nesting::Nesting;
use crate::train::Train;

/// The format number of checkpoints and of files of shards: another one where pieces, frames or choices come in another order.
const FORMAT: u32 = 1;

/// What is written, and read again.
#[derive(Debug, Serialize)]
struct Standing {
    format: u32,
    task: String,
    left: Vec<Piece>,
    done: f64,
    doing: f64,
    /// The piece that is under way, how many of its frames are left, and how many choices of the frame before those.
    piece: Vec<u32>,
    frames: u32,
    choices: u32,
    counts: Vec<f64>,
    reached: Vec<bool>,
    found: Vec<Layout>,
}

#[derive(Debug, Serialize)]
struct Piece {
    bodies: Vec<u32>,
    part: f64,
}

/// A layout that was found, by its places and teeth.
#[derive(Debug, Clone, Serialize)]
pub(super) struct Layout {
    bodies: Vec<u32>,
    /// Places of pairs in the list of all.
    elements: Vec<u32>,
    ranges: Vec<Vec<u32>>,
    sets: Vec<SetTeeth>,
    ended: bool,
}

read_fields!(Standing {
    format,
    task,
    left,
    done,
    doing,
    piece,
    frames,
    choices,
    counts,
    reached,
    found
});
read_fields!(Piece { bodies, part });
read_fields!(Layout {
    bodies,
    elements,
    ranges,
    sets,
    ended
});

impl LayoutSearch {
    /// Where it stands, as one line of JSON, which it is [`LayoutSearch::resume`]d from: some kilobytes, and some hundred bytes
    /// for each layout that was found. The layout whose teeth are being looked for is begun with again.
    pub fn checkpoint(&self) -> String {
        let left = self.pieces.iter().map(|(bodies, part)| Piece {
            bodies: numbers(bodies),
            part: *part,
        });
        let [frames, choices] = self.ahead().map(small);
        let standing = Standing {
            format: FORMAT,
            task: self.task(),
            left: left.collect(),
            done: self.done,
            doing: self.doing,
            piece: numbers(&self.piece),
            frames,
            choices,
            counts: self
                .settled_counts()
                .all_mut()
                .map(|count| *count as f64)
                .to_vec(),
            reached: self.reached.clone(),
            found: self
                .found
                .values()
                .map(|found| self.written(found))
                .chain(self.told.iter().cloned())
                .collect(),
        };
        // Numbers and texts always can be written.
        serde_json::to_string(&standing).unwrap_or_default()
    }

    /// Goes on where the same search stood, or the same shard of it. What it had found is measured anew.
    ///
    /// # Errors
    /// A text that is no checkpoint, or one of another search; then this one begins at its beginning.
    pub fn resume(&mut self, text: &str) -> Result<(), Vec<Problem>> {
        self.resume_in_pieces(text)?;
        while self.measure_next() {}
        Ok(())
    }

    /// The same, but that what it had found is measured as it is gone on with: a thousand layouts take a while.
    ///
    /// # Errors
    /// Those of [`LayoutSearch::resume`].
    pub fn resume_in_pieces(&mut self, text: &str) -> Result<(), Vec<Problem>> {
        let value = strict(text).map_err(|problem| vec![problem])?;
        check_format(&value, FORMAT).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let read = Standing::read(value, "", &mut problems);
        let standing = read.filter(|_| problems.is_empty()).ok_or(problems)?;
        self.stand(standing).ok_or_else(|| vec![other_search()])
    }

    /// Merges the files of shards of a search for layouts, whatever was asked: all must be of one search.
    pub fn merge() -> ShardMerge {
        ShardMerge::new(FORMAT, None)
    }

    /// Which shard of which search it is, and its counts in the order of [`LayoutCounts`].
    pub fn mark(&self) -> ShardMark {
        let mut task = Digest::new();
        // Numbers and texts always can be written.
        task.put(&serde_json::to_vec(&self.ask).unwrap_or_default());
        let counts = self.counts().all_mut().map(|count| u128::from(*count));
        ShardMark::new(FORMAT, task.text(), self.shard, &counts, self.is_full())
    }

    fn stand(&mut self, told: Standing) -> Option<()> {
        if told.format != FORMAT || told.task != self.task() {
            return None;
        }
        let pieces = told.left.iter().map(|piece| {
            let is_part = (0.0..=1.0).contains(&piece.part);
            Some((self.beginning(&piece.bodies)?, piece.part)).filter(|_| is_part)
        });
        let pieces: Vec<_> = pieces.collect::<Option<_>>()?;
        let piece = self.beginning(&told.piece)?;
        // All that can be wrong is looked at before anything changes.
        let has_piece = !piece.is_empty() && self.class.parts(&piece).is_empty();
        if !has_piece && told.frames + told.choices > 0 {
            return None;
        }
        let mut counts = LayoutCounts::default();
        if told.counts.len() != counts.all_mut().len() || told.reached.len() != self.reached.len() {
            return None;
        }
        for (count, told) in counts.all_mut().into_iter().zip(told.counts) {
            *count = told as u64;
        }
        let frames = match has_piece {
            true => self.class.frames(&piece).len(),
            false => 0,
        };
        let left = told.frames as usize;
        if left > frames || (told.choices > 0 && left == frames) {
            return None;
        }
        self.pieces = pieces;
        (self.done, self.doing) = (told.done.clamp(0.0, 1.0), told.doing.clamp(0.0, 1.0));
        if has_piece {
            self.take_up(piece);
        }
        // Those left are at the front, as the last comes first.
        self.frames.truncate(left + usize::from(told.choices > 0));
        self.left = (told.choices > 0).then_some(told.choices as usize);
        (self.counts, self.reached) = (counts, told.reached);
        self.told = told.found;
        Some(())
    }

    /// Measures the next of those that it was told of; false where there is none left.
    pub(super) fn measure_next(&mut self) -> bool {
        let Some(layout) = self.told.pop() else {
            return false;
        };
        if let Some(found) = self.read(layout) {
            self.keep(found);
        }
        true
    }

    /// A beginning of a way to join the members, if it can be one.
    fn beginning(&self, told: &[u32]) -> Option<Vec<u8>> {
        let mut bodies = Vec::new();
        for &body in told {
            let body = u8::try_from(body).ok()?;
            if self.class.is_whole(&bodies) || !self.class.next(&bodies).contains(&body) {
                return None;
            }
            bodies.push(body);
        }
        Some(bodies)
    }

    fn written(&self, found: &LayoutFound) -> Layout {
        let (bodies, pairs) = &found.key;
        let places = pairs
            .iter()
            .filter_map(|pair| self.all.iter().position(|one| one == pair));
        Layout {
            bodies: numbers(bodies),
            elements: places.map(small).collect(),
            ranges: found
                .ranges
                .iter()
                .map(|&pairs| each(pairs).map(small).collect())
                .collect(),
            sets: found.scenario.couplings.iter().map(teeth_of).collect(),
            ended: found.ended,
        }
    }

    /// A layout that was found, measured anew; nothing where it is none.
    fn read(&self, told: Layout) -> Option<LayoutFound> {
        let bodies = self
            .beginning(&told.bodies)
            .filter(|bodies| self.class.is_whole(bodies))?;
        let pairs = |places: &[u32]| {
            places.iter().try_fold(0, |pairs: Pairs, &place| {
                ((place as usize) < self.all.len()).then(|| pairs | 1 << place)
            })
        };
        let elements = pairs(&told.elements)?;
        let ranges = told.ranges.iter().map(|places| pairs(places));
        let ranges: Vec<Pairs> = ranges.collect::<Option<_>>()?;
        let scenario = self.scenario(&bodies, elements, &ranges);
        let (wanted, forwards) = self.wanted(&scenario);
        let (scenario, find) = self
            .bench
            .with_teeth(&scenario, &told.sets, wanted, &forwards)?;
        let nesting = Train::new(scenario.clone()).ok()?.nesting();
        Some(LayoutFound {
            text: text(&scenario),
            scenario,
            find,
            ended: told.ended,
            nests: nesting == Nesting::Nests,
            key: (bodies, each(elements).map(|at| self.all[at]).collect()),
            ranges,
        })
    }

    /// Tells one search from others, and one shard: which it is, and what is asked as it is written.
    fn task(&self) -> String {
        let (which, count) = self.shard;
        // Numbers and texts always can be written.
        let ask = serde_json::to_string(&self.ask).unwrap_or_default();
        format!("{which}/{count} {ask}")
    }
}

fn numbers(bodies: &[u8]) -> Vec<u32> {
    bodies.iter().map(|&body| body.into()).collect()
}

fn small(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}
