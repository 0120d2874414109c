//! Trying the candidates of a small box one by one.

use super::ask::Criterion;
use super::cuts::Cut;
use super::front::Front;
use super::goals::{Goal, least_unevenness};
use super::kernel::{AT_ONCE, Window, within};
use super::limits::RATIOS;
use super::measures::counted;
use super::quotient::Quotient;
use super::walk::{Alike, Box, Ground};

/// What doubles may be wrong by where finds are compared before they are made, as a part.
const ABOUT: f64 = 1e-10;

/// A goal about one ratio.
struct Single<'a> {
    quotient: &'a Quotient,
    window: [f64; 2],
}

impl Single<'_> {
    /// How many coefficients are left of it, above and below the line, once a set and all later ones are put in.
    fn size(&self, set: usize) -> usize {
        2 << self.quotient.variables_before(set)
    }
}

/// What going through a box one by one holds.
struct Going<'a> {
    singles: &'a [Single<'a>],
    /// What is left of all ratios once a set and all later ones are put in, by the set.
    left: Vec<Vec<f64>>,
    /// The cut of each set.
    at: Vec<usize>,
    windows: Vec<Window>,
    /// The ratios of a candidate, as near as doubles come, and the best that it can be in all that counts.
    bounds: Vec<[f64; 2]>,
    at_best: Vec<f64>,
}

impl Ground {
    /// Goes through a box one by one: the cuts of the last set first, so that of each ratio less is left to reckon with
    /// every set that is put in, and along all cuts of the first set at once.
    pub(super) fn go_through(&self, part: &Box, front: &mut Front) {
        let singles: Vec<Single<'_>> = self.singles().collect();
        let sets = self.trees.len();
        // What is left of all ratios once a set and all later ones are put in.
        let mut left: Vec<Vec<f64>> = (0..=sets)
            .map(|set| {
                let sizes = singles.iter().map(|single| single.size(set));
                vec![0.0; sizes.sum()]
            })
            .collect();
        left[sets].clear();
        for single in &singles {
            left[sets].extend(single.quotient.coefficients());
        }
        let mut going = Going {
            singles: &singles,
            left,
            at: vec![0; sets],
            windows: Vec::with_capacity(singles.len()),
            bounds: Vec::with_capacity(self.quotients.len()),
            at_best: Vec::with_capacity(self.maker.best.len()),
        };
        self.descend(part, sets - 1, &mut going, front);
    }

    /// The goals about one ratio.
    fn singles(&self) -> impl Iterator<Item = Single<'_>> {
        self.goals
            .all
            .iter()
            .filter_map(|goal| match goal.powers[..] {
                [(range, 1)] => Some(Single {
                    quotient: &self.quotients[range],
                    window: goal.wider(),
                }),
                _ => None,
            })
    }

    fn cuts_in(&self, part: &Box, set: usize) -> std::ops::Range<usize> {
        let branch = self.branch(set, part.branches[set]);
        branch.from as usize..branch.to as usize
    }

    fn descend(&self, part: &Box, set: usize, going: &mut Going<'_>, front: &mut Front) {
        if set == 0 {
            self.along(part, going, front);
            return;
        }
        let tree = &self.trees[set];
        for cut in self.cuts_in(part, set) {
            going.at[set] = cut;
            let k = tree.cuts[cut].k;
            let (to, from) = going.left.split_at_mut(set + 1);
            let (mut to, mut from) = (&mut to[set][..], &from[0][..]);
            for single in going.singles {
                let (own, rest) = from.split_at(single.size(set + 1));
                let (into, others) = to.split_at_mut(single.size(set));
                single.quotient.put_in(set, k, own, into);
                (from, to) = (rest, others);
            }
            self.descend(part, set - 1, going, front);
        }
    }

    /// Goes along the cuts of the first set, all others being put in.
    fn along(&self, part: &Box, going: &mut Going<'_>, front: &mut Front) {
        going.windows.clear();
        let mut left = &going.left[1][..];
        for single in going.singles {
            let (own, rest) = left.split_at(single.size(1));
            let partial = single.quotient.partial(own);
            going.windows.push(Window::new(&partial, single.window));
            left = rest;
        }
        let tree = &self.trees[0];
        let range = self.cuts_in(part, 0);
        let (mut from, end) = (range.start, range.end);
        while from < end {
            let to = end.min(from + AT_ONCE);
            let second = (tree.rows > 1).then(|| &tree.k[1][from..to]);
            let mut bits = within(&going.windows, &tree.k[0][from..to], second);
            while bits != 0 {
                going.at[0] = from + bits.trailing_zeros() as usize;
                bits &= bits - 1;
                self.consider(going, front);
            }
            from = to;
        }
    }

    fn ratios_at(&self, quotient: &Quotient, at: &[usize], k: &mut [f64]) {
        for (k, variable) in k.iter_mut().zip(&quotient.variables) {
            *k = self.trees[variable.set].k[variable.row][at[variable.set]];
        }
    }

    /// Looks at one candidate that is within all windows, as far as doubles tell.
    fn consider(&self, going: &mut Going<'_>, front: &mut Front) {
        let Going {
            at,
            bounds,
            at_best,
            ..
        } = going;
        let cut = |set: usize| &self.trees[set].cuts[at[set]];
        let sizes_agree = self.alike.iter().all(|Alike { size, sets }| {
            sets.iter()
                .all(|&set| size.of(cut(set)) == size.of(cut(sets[0])))
        });
        if !sizes_agree {
            return;
        }
        bounds.clear();
        for quotient in &self.quotients {
            let mut k = [0.0; RATIOS];
            self.ratios_at(quotient, at, &mut k);
            let value = quotient.value(&k[..quotient.variables.len()]);
            let margin = value.abs() * ABOUT;
            bounds.push([value - margin, value + margin]);
        }
        let certain = |goal: &Goal| {
            let ([low, high], [least, most]) = (goal.bounds(bounds), goal.wider());
            low <= most && least <= high
        };
        if !self.goals.all.iter().all(certain) {
            return;
        }
        at_best.clear();
        for criterion in &self.maker.best {
            at_best.push(counted(match criterion {
                Criterion::Size => {
                    let reaches = (0..at.len()).map(|set| cut(set).reach);
                    reaches.max().unwrap_or(0).into()
                }
                Criterion::Steps => least_unevenness(&self.goals.steps, bounds),
                Criterion::Error => self.least_error(bounds),
                Criterion::Efficiency | Criterion::PinionSpeed => 0.0,
            }));
        }
        if front.beats(at_best) {
            return;
        }
        let cuts: Vec<Cut> = (0..at.len()).map(|set| *cut(set)).collect();
        if let Some(find) = self.maker.find(&cuts, &self.goals) {
            front.take(find);
        }
    }
}
