//! Which bodies the applied elements make one piece of.

use crate::base::element_set::ElementSet;
use crate::train::{Body, Train};

/// The bodies in groups: those in one are joined by applied elements, over others or directly.
pub(crate) struct Joins<'a> {
    train: &'a Train,
    applied: ElementSet,
    /// The group of each shaft, and last that of the housing.
    groups: Vec<usize>,
}

impl<'a> Joins<'a> {
    pub(crate) fn of(train: &'a Train, applied: ElementSet) -> Self {
        let mut joins = Self {
            train,
            applied,
            groups: (0..=train.scenario().shafts.len()).collect(),
        };
        for element in applied.iter() {
            let [kept, merged] = train.ends(element).map(|body| joins.group(body));
            for group in &mut joins.groups {
                if *group == merged {
                    *group = kept;
                }
            }
        }
        joins
    }

    /// The group of a body.
    pub(crate) fn group(&self, body: Body) -> usize {
        match body {
            Body::Shaft(shaft) => self.groups[shaft],
            Body::Housing => self.groups[self.groups.len() - 1],
        }
    }

    /// Whether two bodies are one piece.
    pub(crate) fn join(&self, one: Body, other: Body) -> bool {
        self.group(one) == self.group(other)
    }

    /// The elements without any one of which two bodies would not be one piece.
    pub(crate) fn needed(&self, one: Body, other: Body) -> ElementSet {
        let needed = |&element: &usize| {
            let fewer = Self::of(self.train, self.applied.without(element));
            self.join(one, other) && !fewer.join(one, other)
        };
        self.applied.iter().filter(needed).collect()
    }
}
