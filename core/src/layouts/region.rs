//! Where in the tooth ratios of all rows several ratios can be what is wanted at once.
//!
//! A region is a number of boxes that hold every place where they are. Boxes are divided, and those left out in which the
//! bounds of some ratio ([`Quotient`]) are outside its window.

use super::limits::ROWS;
use crate::search::Quotient;

/// A wanted ratio, or quotient of two, of those that a frame has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Goal {
    pub ratio: usize,
    /// What the ratio is divided by, if anything.
    pub over: Option<usize>,
    pub window: [f64; 2],
}

/// Ends of the tooth ratio of each row; those of the rows that there are.
type Ends = [[f64; 2]; ROWS];

/// Boxes of tooth ratios.
#[derive(Debug, Clone)]
pub(super) struct Region {
    boxes: Vec<Ends>,
}

/// A box is not divided further along a tooth ratio whose ends are so near to each other, as a part.
const NEAR: f64 = 2e-3;

impl Region {
    /// One box of all.
    pub(super) fn whole(widest: &[[f64; 2]]) -> Self {
        let mut ends = [[1.0; 2]; ROWS];
        ends[..widest.len()].copy_from_slice(widest);
        Self { boxes: vec![ends] }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.boxes.is_empty()
    }

    /// What is left of it where goals are met, the last of which may be new; divided into no more boxes than `most`, or twice as
    /// many.
    pub(super) fn narrowed(&self, ratios: &[Quotient], goals: &[Goal], most: usize) -> Self {
        let new = goals.last();
        let meets = |ends: &Ends, goal: &Goal| goal.may_be_met(ratios, ends);
        let kept = self.boxes.iter();
        let mut boxes: Vec<Ends> = kept
            .filter(|ends| new.is_none_or(|goal| meets(ends, goal)))
            .copied()
            .collect();
        while !boxes.is_empty() && boxes.len() < most {
            let mut next = Vec::with_capacity(2 * boxes.len());
            let mut is_divided = false;
            for ends in &boxes {
                let Some(halves) = halves(ends) else {
                    next.push(*ends);
                    continue;
                };
                is_divided = true;
                let all = |ends: &Ends| goals.iter().rev().all(|goal| meets(ends, goal));
                next.extend(halves.into_iter().filter(all));
            }
            boxes = next;
            if !is_divided {
                break;
            }
        }
        Self { boxes }
    }
}

/// Its halves along the tooth ratio whose ends are furthest apart.
fn halves(ends: &Ends) -> Option<[Ends; 2]> {
    let wide = |[low, high]: &[f64; 2]| high / low;
    let rows = ends.iter().enumerate();
    let (row, widest) = rows.max_by(|(_, a), (_, b)| wide(a).total_cmp(&wide(b)))?;
    if wide(widest) <= 1.0 + NEAR {
        return None;
    }
    let [low, high] = *widest;
    let middle = (low * high).sqrt();
    let (mut lower, mut upper) = (*ends, *ends);
    lower[row] = [low, middle];
    upper[row] = [middle, high];
    Some([lower, upper])
}

impl Goal {
    fn may_be_met(&self, ratios: &[Quotient], ends: &Ends) -> bool {
        let bounds = |at: usize| ratios[at].bounds_among(ends);
        let [least, most] = self.window;
        let [mut low, mut high] = bounds(self.ratio);
        if let Some(over) = self.over {
            let [below, above] = bounds(over);
            // Ratios that may be zero or less have no bounds of a quotient here.
            low = if above > 0.0 { low / above } else { 0.0 };
            high = if below > 0.0 {
                high / below
            } else {
                f64::INFINITY
            };
        }
        low <= most && least <= high
    }
}
