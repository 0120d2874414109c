//! The ratios that a frame can have: one for each choice of as many pairs of bodies as are applied at once.
//!
//! Joining the bodies of those pairs leaves one shaft more than there are mesh rows. The speeds are then the one
//! vector at right angles to all rows, whose components are minors (Cramer's rule): ωⱼ = (−1)ʲ·det(rows without
//! column j). As each row is constant + k·slope, a minor is multilinear in the tooth ratios k, and the coefficient of a
//! product of some of them is the minor with the slopes of their rows and the constants of the others.
//! Coefficients are small whole numbers, so that it is decided exactly whether the output turns at all, and on
//! which tooth ratios the ratio depends.

use std::collections::BTreeMap;

use super::class::{Class, HOUSING, INPUT, OUTPUT};
use super::frame::{Frame, Pair, Pairs};
use super::ratio::{Ratio, determinant};

/// Elements that are applied together, and the ratio that comes of them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Drive {
    pub pairs: Pairs,
    /// Which of the ratios.
    pub ratio: usize,
}

/// Choices in a piece, were there one row; each row more takes twice as long.
const CHOICES_OF_ONE_ROW: usize = 8_192;

/// All drives of a frame.
#[derive(Default)]
pub(super) struct Drives {
    pub ratios: Vec<Ratio>,
    pub drives: Vec<Drive>,
}

/// Goes through all choices of pairs of a frame, in pieces.
pub(super) struct DriveFinder {
    /// What is joined so far, a pair more in each.
    levels: Vec<Level>,
    known: BTreeMap<Ratio, usize>,
    found: Drives,
}

struct Level {
    pairs: Pairs,
    /// Of each body the lowest that it is joined to.
    joined: Vec<u8>,
    /// The pair that is joined next.
    next: usize,
}

impl DriveFinder {
    pub(super) fn new(class: &Class) -> Self {
        let nothing = Level {
            pairs: 0,
            joined: (HOUSING..=class.shafts).collect(),
            next: 0,
        };
        Self {
            levels: vec![nothing],
            known: BTreeMap::new(),
            found: Drives::default(),
        }
    }

    /// Goes on for a piece, between all pairs; what was found, once nothing is left.
    pub(super) fn run(&mut self, class: &Class, frame: &Frame, all: &[Pair]) -> Option<Drives> {
        for _ in 0..CHOICES_OF_ONE_ROW >> class.rows.len() {
            if !self.step(class, frame, all) {
                return Some(std::mem::take(&mut self.found));
            }
        }
        None
    }

    /// Joins the next pair, if it is of any use; false once there is none left.
    fn step(&mut self, class: &Class, frame: &Frame, all: &[Pair]) -> bool {
        let depth = self.levels.len();
        let Some(level) = self.levels.last_mut() else {
            return false;
        };
        if depth > class.applied {
            let (pairs, joined) = (level.pairs, std::mem::take(&mut level.joined));
            self.levels.pop();
            self.take(pairs, ratio(class, frame, &joined));
            return true;
        }
        let at = level.next;
        let Some(pair) = all.get(at) else {
            self.levels.pop();
            return true;
        };
        level.next += 1;
        let [a, b] = pair.map(|body| level.joined[usize::from(body)]);
        let (low, high) = (a.min(b), a.max(b));
        // Those that are joined already would be to spare; input and output cannot stand.
        let holds = low == HOUSING && (high == INPUT || high == OUTPUT);
        if low == high || holds {
            return true;
        }
        let joined = level
            .joined
            .iter()
            .map(|&body| if body == high { low } else { body });
        let further = Level {
            pairs: level.pairs | 1 << at,
            joined: joined.collect(),
            next: at + 1,
        };
        self.levels.push(further);
        true
    }

    fn take(&mut self, pairs: Pairs, ratio: Option<Ratio>) {
        let Some(ratio) = ratio else { return };
        let next = self.found.ratios.len();
        let at = *self.known.entry(ratio.clone()).or_insert(next);
        if at == next {
            self.found.ratios.push(ratio);
        }
        self.found.drives.push(Drive { pairs, ratio: at });
    }
}

/// The ratio with what is joined; nothing where the output stands or the input cannot turn.
fn ratio(class: &Class, frame: &Frame, joined: &[u8]) -> Option<Ratio> {
    let rows = class.rows.len();
    // A column for each shaft that is left.
    let mut columns = vec![usize::MAX; joined.len()];
    let mut count = 0;
    for (body, &lowest) in joined.iter().enumerate() {
        if usize::from(lowest) == body && lowest != HOUSING {
            columns[body] = count;
            count += 1;
        }
    }
    let column = |body: u8| columns[usize::from(joined[usize::from(body)])];
    let mut parts = vec![0; 2 * rows * count];
    let (constants, slopes) = parts.split_at_mut(rows * count);
    for (at, row) in class.rows.iter().enumerate() {
        for (place, member) in class.members(row.set).enumerate() {
            let column = column(frame.bodies[member]);
            if column != usize::MAX {
                constants[at * count + column] += row.constant[place];
                slopes[at * count + column] += row.slope[place];
            }
        }
    }
    let minors = |without: usize| -> Vec<i64> {
        let sign = if without.is_multiple_of(2) { 1 } else { -1 };
        let with = |sloping: usize| {
            let mut matrix = [0; 64];
            for row in 0..rows {
                let from = if sloping >> row & 1 == 1 {
                    &*slopes
                } else {
                    &*constants
                };
                let own = &from[row * count..(row + 1) * count];
                let mut others = own.iter().enumerate().filter(|(at, _)| *at != without);
                for place in &mut matrix[row * rows..(row + 1) * rows] {
                    *place = others.next().map_or(0, |(_, value)| *value);
                }
            }
            sign * determinant(&mut matrix[..rows * rows], rows)
        };
        (0..1 << rows).map(with).collect()
    };
    Ratio::of(minors(column(INPUT)), minors(column(OUTPUT)), rows)
}
