//! Where a search stands, as a text from which it is gone on with later, or elsewhere.

use std::sync::Arc;

use serde::Serialize;

use super::Search;
use super::ask::Limits;
use super::front::Front;
use super::measures::Find;
use super::quotient::Quotient;
use super::report::FindSets;
use super::shards::{Digest, check_format};
use super::walk::{Box, Counts, Ground, Size};
use crate::base::problem::Problem;
use crate::json::{Read, Value, read_fields, strict};

/// The format number of checkpoints and of files of shards: another one where cuts, their trees, or what a shard goes through become
/// others.
pub(super) const FORMAT: u32 = 3;

/// What is written. Counts are texts, as they may be larger than numbers in JSON are exact.
#[derive(Debug, Serialize)]
struct Written {
    format: u32,
    task: String,
    /// Which shard it is, from 0, and of how many.
    shard: [u32; 2],
    /// The boxes that are left, by the branch of each set.
    left: Vec<Vec<u32>>,
    outside: String,
    beaten: String,
    tried: String,
    boxes: String,
    /// Those that were found here: what other parts have found is in the places where they stand.
    finds: Vec<FindSets>,
}

/// What is read of it again.
#[derive(Debug)]
struct Told {
    format: u32,
    task: String,
    shard: Vec<u32>,
    left: Vec<Vec<u32>>,
    outside: String,
    beaten: String,
    tried: String,
    boxes: String,
    finds: Value,
}

impl Search {
    /// Where all parts of a search stand together, as one line of JSON, which is [`Search::resume`]d from. It takes
    /// some kilobytes, and a hundred bytes for each find.
    pub fn checkpoint(parts: &[Self]) -> String {
        let Some(first) = parts.first() else {
            return String::new();
        };
        let mut counts = Counts::default();
        for part in parts {
            counts.add(&part.walk.counts);
        }
        let told = parts.iter().flat_map(|part| &part.told);
        let told = told.filter(|told| !told.is_known);
        let told = told.map(|told| FindSets::clone(&told.find));
        let mut own: Vec<Arc<Find>> = Vec::new();
        for part in parts {
            own.extend(part.walk.front.own().cloned());
        }
        if parts.len() > 1 {
            // Parts in threads know the finds of each other.
            let mut front = Front::default();
            for find in own {
                front.put(find, true);
            }
            own = front.finds().cloned().collect();
        }
        let stencils = first.stencils();
        let own = own.iter().map(|find| stencils.sets(find));
        let finds = own.chain(told);
        let boxes = parts.iter().flat_map(|part| &part.walk.boxes);
        let written = Written {
            format: FORMAT,
            task: first.task.text(),
            shard: first.which(),
            left: boxes.map(|each| each.branches.clone()).collect(),
            outside: counts.outside.to_string(),
            beaten: counts.beaten.to_string(),
            tried: counts.tried.to_string(),
            boxes: counts.boxes.to_string(),
            finds: finds.collect(),
        };
        // Whole numbers and texts always can be written.
        serde_json::to_string(&written).unwrap_or_default()
    }

    /// Goes on where the same search stood, or the same shard of it. Its finds are measured anew.
    ///
    /// # Errors
    /// A text that is no checkpoint, or one of another search; then this one begins at its beginning.
    pub fn resume(&mut self, text: &str) -> Result<(), Vec<Problem>> {
        self.resume_in_pieces(text)?;
        self.measure_told();
        Ok(())
    }

    /// The same, but that finds are measured as it is gone on with: thousands take a while.
    ///
    /// # Errors
    /// Those of [`Search::resume`].
    pub fn resume_in_pieces(&mut self, text: &str) -> Result<(), Vec<Problem>> {
        let value = strict(text).map_err(|problem| vec![problem])?;
        check_format(&value, FORMAT).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let read = Told::read(value, "", &mut problems);
        let mut told = read.filter(|_| problems.is_empty()).ok_or(problems)?;
        let finds = std::mem::replace(&mut told.finds, Value::Null);
        let (boxes, counts) = self.standing(told).ok_or_else(|| vec![other_search()])?;
        self.tell_values(finds, false)?;
        self.walk.boxes = boxes;
        self.walk.counts = counts;
        Ok(())
    }

    /// Which shard it is, as it is written.
    fn which(&self) -> [u32; 2] {
        let (which, count) = self.shard;
        [which, count].map(|number| number as u32)
    }

    /// The boxes and counts of a checkpoint, if it is one of this search: all that is left and all that is done
    /// together are what there is to do.
    fn standing(&self, told: Told) -> Option<(Vec<Box>, Counts)> {
        let is_ours = told.format == FORMAT && told.task == self.task.text();
        if !is_ours || told.shard != self.which() {
            return None;
        }
        let boxes: Option<Vec<_>> = told.left.into_iter().map(|at| self.ground.at(at)).collect();
        let boxes = boxes?;
        let counts = Counts {
            outside: told.outside.parse().ok()?,
            beaten: told.beaten.parse().ok()?,
            tried: told.tried.parse().ok()?,
            boxes: told.boxes.parse().ok()?,
        };
        let done = [counts.outside, counts.beaten, counts.tried];
        let left = boxes
            .iter()
            .map(|each| self.ground.candidates(&each.branches));
        let all = left.chain(done).try_fold(0_u128, u128::checked_add);
        (all == Some(self.all)).then_some((boxes, counts))
    }
}

/// That a place is one of another search.
pub(crate) fn other_search() -> Problem {
    Problem::of(
        "task",
        ("problem-other-search", &[]),
        ("fix-other-search", &[]),
    )
}

read_fields!(Told {
    format,
    task,
    shard,
    left,
    outside,
    beaten,
    tried,
    boxes,
    finds
});

/// Tells one search from others by all that it goes by. Names are no part of that, but for those that finds name.
pub(super) fn task_of(ground: &Ground) -> Digest {
    let mut digest = Digest::new();
    let maker = &ground.maker;
    for (tree, &set) in ground.trees.iter().zip(&maker.sets) {
        digest.put(maker.scenario.couplings[set].facts().id().as_bytes());
        digest.put_all(tree.digest);
    }
    let coefficients = ground.quotients.iter().flat_map(Quotient::coefficients);
    let windows = ground.goals.all.iter().flat_map(|goal| {
        let powers = goal.powers.iter();
        let powers = powers.flat_map(|&(at, power)| [at as f64, power.into()]);
        powers.chain(goal.window).chain(goal.wanted)
    });
    let Limits {
        pinion_speed,
        open_speed,
        efficiency,
    } = maker.limits;
    let limits = [pinion_speed, open_speed, efficiency].map(|limit| limit.unwrap_or(-1.0));
    let best = maker.best.iter().map(|&criterion| criterion as u8 as f64);
    let groups = ground.alike.iter().flat_map(|group| {
        let sets = group.sets.iter().map(|&set| set as f64);
        sets.chain([match group.size {
            Size::Ring => -1.0,
            Size::Distance => -2.0,
        }])
    });
    let ranges = maker.ranges.iter();
    let of_ranges = ranges.map(|range| range.efficiency.unwrap_or(-1.0));
    let law = [ground.goals.steps.law];
    let numbers = coefficients.chain(windows).chain(limits).chain(best);
    for number in numbers.chain(groups).chain(law).chain(of_ranges) {
        digest.put(&number.to_bits().to_le_bytes());
    }
    digest
}
