//! The cuts of a set in a tree: each branch holds those of a narrow box of tooth ratios and reach, so that one
//! bound says something about all of them.

use super::cuts::Cut;

/// A branch with no more cuts than these is not divided further.
const TWIGS: usize = 4;

/// Cuts next to each other.
#[derive(Debug, Clone)]
pub(super) struct Branch {
    /// Where its cuts begin and end.
    pub from: u32,
    pub to: u32,
    /// Its two parts, unless it is not divided.
    pub parts: Option<[u32; 2]>,
    /// Least and greatest tooth ratio of each row.
    pub k: [[f64; 2]; 2],
    /// Least and greatest reach.
    pub reach: [u16; 2],
    /// Least and greatest distance of axes.
    pub distance: [u16; 2],
    /// How many tooth counts its cuts stand for.
    pub stands_for: u64,
}

/// All cuts of a set.
#[derive(Debug, Clone)]
pub(super) struct Tree {
    pub cuts: Vec<Cut>,
    /// How many mesh rows the set has, one or two.
    pub rows: usize,
    /// Their tooth ratios, row by row.
    pub k: [Vec<f64>; 2],
    /// The first is the trunk.
    pub branches: Vec<Branch>,
}

impl Tree {
    /// Of at least one cut.
    pub(super) fn new(cuts: Vec<Cut>, rows: usize) -> Self {
        let mut tree = Self {
            cuts,
            rows,
            k: [Vec::new(), Vec::new()],
            branches: Vec::new(),
        };
        tree.grow(0, tree.cuts.len());
        tree.k = [0, 1].map(|row| tree.cuts.iter().map(|cut| cut.k[row]).collect());
        tree
    }

    fn grow(&mut self, from: usize, to: usize) -> u32 {
        let cuts = &mut self.cuts[from..to];
        let ends = |of: &dyn Fn(&Cut) -> f64| {
            let values = cuts.iter().map(of);
            values.fold([f64::INFINITY, 0.0], |[least, most], value| {
                [value.min(least), value.max(most)]
            })
        };
        let [first, second] = [0, 1].map(|row| ends(&|cut: &Cut| cut.k[row]));
        let reach = ends(&|cut: &Cut| cut.reach.into());
        // What differs most, by how many times, is divided.
        let widths = [first, second, reach].map(|[least, most]| most / least);
        let widest = (0..3).fold(0, |best, at| match widths[at] > widths[best] {
            true => at,
            false => best,
        });
        if cuts.len() > TWIGS {
            let key = |cut: &Cut| match widest {
                2 => f64::from(cut.reach),
                row => cut.k[row],
            };
            // The same whatever the order was: no two cuts have the same teeth.
            let order = |a: &Cut, b: &Cut| key(a).total_cmp(&key(b)).then(a.teeth.cmp(&b.teeth));
            let middle = cuts.len() / 2;
            cuts.select_nth_unstable_by(middle, order);
        }
        let distances = cuts.iter().map(|cut| cut.distance);
        let distance = distances.fold([u16::MAX, 0], |[least, most], one| {
            [least.min(one), most.max(one)]
        });
        let branch = Branch {
            from: from as u32,
            to: to as u32,
            parts: None,
            k: [first, second],
            reach: reach.map(|reach| reach as u16),
            distance,
            stands_for: cuts.iter().map(|cut| u64::from(cut.stands_for)).sum(),
        };
        let at = self.branches.len();
        self.branches.push(branch);
        if to - from > TWIGS {
            let middle = from + (to - from) / 2;
            let parts = [self.grow(from, middle), self.grow(middle, to)];
            self.branches[at].parts = Some(parts);
        }
        at as u32
    }
}
