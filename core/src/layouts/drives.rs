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

/// All drives of a frame.
#[derive(Default)]
pub(super) struct Drives {
    pub ratios: Vec<Ratio>,
    pub drives: Vec<Drive>,
}

impl Drives {
    /// Those of a frame, between all pairs.
    pub(super) fn of(class: &Class, frame: &Frame, all: &[Pair]) -> Self {
        let mut finder = Finder {
            class,
            frame,
            all,
            joined: (HOUSING..=class.shafts).collect(),
            known: BTreeMap::new(),
            found: Self::default(),
        };
        finder.join(0, 0, class.applied);
        finder.found
    }
}

struct Finder<'a> {
    class: &'a Class,
    frame: &'a Frame,
    all: &'a [Pair],
    /// Of each body the lowest that it is joined to.
    joined: Vec<u8>,
    known: BTreeMap<Ratio, usize>,
    found: Drives,
}

impl Finder<'_> {
    /// Goes through all choices of so many pairs more from one on.
    fn join(&mut self, from: usize, pairs: Pairs, more: usize) {
        if more == 0 {
            self.take(pairs);
            return;
        }
        for at in from..self.all.len() {
            let [a, b] = self.all[at].map(|body| self.joined[usize::from(body)]);
            let (low, high) = (a.min(b), a.max(b));
            // Those that are joined already would be to spare; input and output cannot stand.
            let holds = low == HOUSING && (high == INPUT || high == OUTPUT);
            if low == high || holds {
                continue;
            }
            let before = self.joined.clone();
            for body in &mut self.joined {
                if *body == high {
                    *body = low;
                }
            }
            self.join(at + 1, pairs | 1 << at, more - 1);
            self.joined = before;
        }
    }

    fn take(&mut self, pairs: Pairs) {
        let Some(ratio) = self.ratio() else { return };
        let next = self.found.ratios.len();
        let at = *self.known.entry(ratio.clone()).or_insert(next);
        if at == next {
            self.found.ratios.push(ratio);
        }
        self.found.drives.push(Drive { pairs, ratio: at });
    }

    /// The ratio with what is joined now; nothing where the output stands or the input cannot turn.
    fn ratio(&self) -> Option<Ratio> {
        let class = self.class;
        let rows = class.rows.len();
        // A column for each shaft that is left.
        let mut columns = vec![usize::MAX; self.joined.len()];
        let mut count = 0;
        for (body, &lowest) in self.joined.iter().enumerate() {
            if usize::from(lowest) == body && lowest != HOUSING {
                columns[body] = count;
                count += 1;
            }
        }
        let column = |body: u8| columns[usize::from(self.joined[usize::from(body)])];
        let mut parts = vec![0; 2 * rows * count];
        let (constants, slopes) = parts.split_at_mut(rows * count);
        for (at, row) in class.rows.iter().enumerate() {
            for (place, member) in class.members(row.set).enumerate() {
                let column = column(self.frame.bodies[member]);
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
}
