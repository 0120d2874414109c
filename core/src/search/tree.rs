//! The cuts of a set in a tree: each branch holds those of a narrow box of tooth ratios and reach, so that one
//! bound says something about all of them.

use super::cuts::Cut;
use super::shards::Digest;

/// A branch with no more cuts than these is not divided further.
const TWIGS: usize = 4;

/// How many cuts are gone through in a piece of growing, or as many as the branch has that is next.
const PIECE: usize = 131_072;

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
#[derive(Debug)]
pub(super) struct Tree {
    pub cuts: Vec<Cut>,
    /// How many mesh rows the set has, one or two.
    pub rows: usize,
    /// Their tooth ratios, row by row; nothing of a row that there is not.
    pub k: [Vec<f64>; 2],
    /// The first is the trunk.
    pub branches: Vec<Branch>,
    /// Tells its cuts from others.
    pub digest: Digest,
}

/// A tree that grows, in pieces.
pub(super) struct Growing {
    tree: Tree,
    /// Branches that are still to be, the last first.
    left: Vec<Bud>,
}

/// Where the cuts of a branch begin and end, and which part of which branch it is.
struct Bud {
    from: usize,
    to: usize,
    of: Option<(usize, usize)>,
}

impl Growing {
    /// Of at least one cut.
    pub(super) fn new(mut cuts: Vec<Cut>, rows: usize) -> Self {
        cuts.shrink_to_fit();
        let trunk = Bud {
            from: 0,
            to: cuts.len(),
            of: None,
        };
        // No more than it takes: what doubled as it grew would take up to twice that.
        let ratios = |row: usize| Vec::with_capacity(if row < rows { cuts.len() } else { 0 });
        Self {
            tree: Tree {
                k: [ratios(0), ratios(1)],
                branches: Vec::with_capacity(branches_of(cuts.len())),
                cuts,
                rows,
                digest: Digest::new(),
            },
            left: vec![trunk],
        }
    }

    /// Goes on for a piece; false once nothing is left.
    pub(super) fn run(&mut self) -> bool {
        let mut done = 0;
        while done < PIECE {
            let Some(bud) = self.left.pop() else {
                return false;
            };
            done += bud.to - bud.from;
            self.grow(bud);
        }
        true
    }

    /// The tree, as far as it has grown.
    pub(super) fn tree(self) -> Tree {
        self.tree
    }

    fn grow(&mut self, Bud { from, to, of }: Bud) {
        let tree = &mut self.tree;
        let cuts = &mut tree.cuts[from..to];
        let mut k = [[f64::INFINITY, 0.0]; 2];
        let (mut reach, mut distance) = ([u16::MAX, 0], [u16::MAX, 0]);
        let mut stands_for = 0;
        for cut in &*cuts {
            for (ends, value) in k.iter_mut().zip(cut.k) {
                *ends = [value.min(ends[0]), value.max(ends[1])];
            }
            reach = [cut.reach.min(reach[0]), cut.reach.max(reach[1])];
            distance = [cut.distance.min(distance[0]), cut.distance.max(distance[1])];
            stands_for += u64::from(cut.stands_for);
        }
        let at = tree.branches.len();
        tree.branches.push(Branch {
            from: from as u32,
            to: to as u32,
            parts: None,
            k,
            reach,
            distance,
            stands_for,
        });
        // The first part is made right after its branch, the second sets both.
        if let Some((branch, 1)) = of {
            tree.branches[branch].parts = Some([branch as u32 + 1, at as u32]);
        }
        if cuts.len() <= TWIGS {
            for (row, ratios) in tree.k.iter_mut().enumerate().take(tree.rows) {
                ratios.extend(cuts.iter().map(|cut| cut.k[row]));
            }
            for cut in &*cuts {
                cut.teeth
                    .iter()
                    .for_each(|count| tree.digest.put(&count.to_le_bytes()));
                tree.digest.put(&[cut.pinions]);
            }
            return;
        }
        // What differs most, by how many times, is divided.
        let widths = [k[0], k[1], reach.map(f64::from)].map(|[least, most]| most / least);
        let widest = (0..3).fold(0, |best, at| match widths[at] > widths[best] {
            true => at,
            false => best,
        });
        let key = |cut: &Cut| match widest {
            2 => f64::from(cut.reach),
            row => cut.k[row],
        };
        // The same whatever the order was: no two cuts have the same teeth.
        let order = |a: &Cut, b: &Cut| key(a).total_cmp(&key(b)).then(a.teeth.cmp(&b.teeth));
        let middle = (to - from) / 2;
        cuts.select_nth_unstable_by(middle, order);
        let middle = from + middle;
        let parts = [(1, middle, to), (0, from, middle)];
        self.left.extend(parts.map(|(part, from, to)| Bud {
            from,
            to,
            of: Some((at, part)),
        }));
    }
}

/// How many branches a tree of so many cuts has.
fn branches_of(cuts: usize) -> usize {
    match cuts <= TWIGS {
        true => 1,
        false => 1 + branches_of(cuts / 2) + branches_of(cuts - cuts / 2),
    }
}
