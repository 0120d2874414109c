//! The mesh rows behind a ratio, over groups of shafts that turn as one.

use levertrain_exact::{Fraction, Motions, Terms};

use super::expression::Tooth;
use crate::base::element_set::ElementSet;
use crate::model::coupling::{RowRatio, Symbol};
use crate::train::{Body, Train};

/// The tooth counts above and below the line of a row's k.
#[derive(Debug, Clone)]
pub(super) struct ToothRatio {
    pub(super) above: Vec<Tooth>,
    pub(super) below: Vec<Tooth>,
}

impl ToothRatio {
    /// Those of a row of the set with this number, from 1.
    pub(super) fn of(row: &RowRatio, set: usize) -> Self {
        let teeth = |factors: &[Symbol]| {
            let tooth = |&(letter, teeth): &Symbol| Tooth {
                letter,
                set,
                value: teeth.get(),
            };
            factors.iter().map(tooth).collect()
        };
        Self {
            above: teeth(&row.numerator),
            below: teeth(&row.denominator),
        }
    }
}

/// A mesh row over groups of shafts that turn as one: constant + k·slope.
#[derive(Debug, Clone)]
pub(super) struct GroupRow {
    /// Its number in the train, which is also that of its k.
    pub(super) number: usize,
    pub(super) constant: Vec<i64>,
    pub(super) slope: Vec<i64>,
    /// Numerator and denominator of its k.
    k: [i64; 2],
}

/// Which numbers stand for the k.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Teeth {
    /// Those of the train.
    Actual,
    /// Others near them, which stand for any: one set, or another.
    Any(i64),
}

impl GroupRow {
    /// Numerator and denominator of its k with these teeth.
    fn k(&self, teeth: Teeth) -> [i64; 2] {
        let [above, below] = self.k;
        match teeth {
            Teeth::Actual => [above, below],
            // No two rows are moved alike, and of a train's two dozen rows none ends at k = 1.
            Teeth::Any(which) => {
                let step = which * (13 + 10 * self.number as i64);
                [above * 97 + step, below * 97]
            }
        }
    }

    pub(super) fn k_fraction(&self, teeth: Teeth) -> Fraction {
        let [above, below] = self.k(teeth);
        Fraction::new(above, below).unwrap_or(Fraction::ZERO)
    }

    /// The row in whole numbers.
    fn terms(&self, teeth: Teeth) -> Terms {
        let [above, below] = self.k(teeth);
        let value = |group: usize| self.constant[group] * below + self.slope[group] * above;
        let values = (0..self.constant.len()).map(|group| (group, value(group)));
        values.filter(|(_, value)| *value != 0).collect()
    }

    fn touches(&self, group: usize) -> bool {
        self.constant[group] != 0 || self.slope[group] != 0
    }
}

/// Shafts that applied elements make turn as one; the housing's group has no number.
pub(super) struct Groups {
    of_shaft: Vec<Option<usize>>,
    pub(super) count: usize,
}

impl Groups {
    pub(super) fn of(train: &Train, applied: ElementSet) -> Self {
        let shafts = train.scenario().shafts.len();
        // The housing stands after the shafts.
        let index = |body: Body| match body {
            Body::Housing => shafts,
            Body::Shaft(shaft) => shaft,
        };
        let mut leader: Vec<usize> = (0..=shafts).collect();
        for element in applied.iter() {
            let [a, b] = train.ends(element).map(|body| leader[index(body)]);
            leader.iter_mut().filter(|l| **l == b).for_each(|l| *l = a);
        }
        let housing = leader[shafts];
        let mut leaders: Vec<usize> = Vec::new();
        let of_shaft = leader[..shafts].iter().map(|leader| {
            (*leader != housing).then(|| {
                let known = leaders.iter().position(|candidate| candidate == leader);
                known.unwrap_or_else(|| {
                    leaders.push(*leader);
                    leaders.len() - 1
                })
            })
        });
        let of_shaft = of_shaft.collect();
        Self {
            of_shaft,
            count: leaders.len(),
        }
    }

    /// The group of a shaft, unless it is the housing's.
    pub(super) fn of_shaft(&self, shaft: usize) -> Option<usize> {
        self.of_shaft[shaft]
    }
}

/// Every mesh row of a train, and the teeth of its k.
pub(super) fn rows(train: &Train, groups: &Groups) -> (Vec<GroupRow>, Vec<ToothRatio>) {
    let (mut rows, mut ratios) = (Vec::new(), Vec::new());
    for (index, coupling) in train.scenario().couplings.iter().enumerate() {
        for ratio in coupling.facts().row_ratios() {
            let product = |factors: &[Symbol]| -> i64 {
                let counts = factors.iter().map(|(_, teeth)| teeth.coefficient());
                counts.product()
            };
            let mut row = GroupRow {
                number: rows.len(),
                constant: vec![0; groups.count],
                slope: vec![0; groups.count],
                k: [product(&ratio.numerator), product(&ratio.denominator)],
            };
            for (member, &body) in train.members(index).iter().enumerate() {
                if let Body::Shaft(shaft) = body
                    && let Some(group) = groups.of_shaft(shaft)
                {
                    row.constant[group] += ratio.constant[member];
                    row.slope[group] += ratio.slope[member];
                }
            }
            rows.push(row);
            ratios.push(ToothRatio::of(&ratio, index + 1));
        }
    }
    (rows, ratios)
}

/// Rows that together decide how fast one group turns by another.
#[derive(Debug, Clone)]
pub(super) struct Link {
    pub(super) rows: Vec<GroupRow>,
    /// How many groups there are.
    pub(super) groups: usize,
    pub(super) from: usize,
    pub(super) to: usize,
}

impl Link {
    /// Speed of `to` per turn of `from`, if it is decided.
    pub(super) fn speed(&self, teeth: Teeth) -> Option<Fraction> {
        let mut motions = Motions::free(self.groups);
        for row in &self.rows {
            if let Some(narrowed) = motions.constrained(&row.terms(teeth)) {
                motions = narrowed;
            }
        }
        let turning = motions.turning(self.from);
        if turning.input_can_turn() {
            turning.speed(self.to)
        } else {
            None
        }
    }

    /// With the rows only without any of which the speed would be another with these teeth;
    /// `None` where it is not decided.
    pub(super) fn needed(mut self, teeth: Teeth) -> Option<Self> {
        let wanted = self.speed(teeth)?;
        for index in (0..self.rows.len()).rev() {
            let row = self.rows.remove(index);
            if self.speed(teeth).as_ref() != Some(&wanted) {
                self.rows.insert(index, row);
            }
        }
        Some(self)
    }

    /// Split wherever all goes through one group: the ratios multiply.
    pub(super) fn in_series(self) -> Vec<Self> {
        for through in (0..self.groups).filter(|&g| g != self.from && g != self.to) {
            let reached = self.reached_without(through);
            // A row of its own side only, or the other.
            let (near, far): (Vec<_>, Vec<_>) = self
                .rows
                .iter()
                .cloned()
                .partition(|row| reached.iter().any(|&group| row.touches(group)));
            if reached.contains(&self.to) || near.is_empty() || far.is_empty() {
                continue;
            }
            let side = |rows, from, to| Self {
                rows,
                from,
                to,
                ..self
            };
            let mut links = side(near, self.from, through).in_series();
            links.extend(side(far, through, self.to).in_series());
            return links;
        }
        vec![self]
    }

    /// The groups that rows join to `from` without going through one.
    fn reached_without(&self, through: usize) -> Vec<usize> {
        let mut reached = vec![self.from];
        let mut next = 0;
        while let Some(&group) = reached.get(next) {
            next += 1;
            for row in self.rows.iter().filter(|row| row.touches(group)) {
                for other in (0..self.groups).filter(|&other| row.touches(other)) {
                    if other != through && !reached.contains(&other) {
                        reached.push(other);
                    }
                }
            }
        }
        reached
    }

    /// As many groups beside the two as fix the rows' multipliers up to scale; `None` where there
    /// are not as many.
    pub(super) fn independent_groups(&self, teeth: Teeth) -> Option<Vec<usize>> {
        let values: Vec<Terms> = self.rows.iter().map(|row| row.terms(teeth)).collect();
        let mut multipliers = Motions::free(self.rows.len());
        let mut groups = Vec::new();
        for group in (0..self.groups).filter(|&group| group != self.from && group != self.to) {
            let entry = |terms: &Terms| terms.iter().find(|(g, _)| *g == group).map(|(_, v)| *v);
            let column = values.iter().enumerate();
            let column: Terms = column
                .filter_map(|(row, terms)| Some((row, entry(terms)?)))
                .collect();
            if let Some(narrowed) = multipliers.constrained(&column) {
                multipliers = narrowed;
                groups.push(group);
            }
        }
        (groups.len() + 1 == self.rows.len()).then_some(groups)
    }
}
