//! Shafts that applied elements join: one equation each group, and the order in which the torques
//! of the elements follow from it.

use crate::train::{Body, Train};

/// The torque that a shaft passes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Link {
    /// Through an applied element.
    Element(usize),
    /// To what the output drives.
    Output,
}

/// The loaded shafts in groups that applied elements join.
///
/// Inside a group the torques of the elements cancel, so that only their sum is an equation. A
/// group that a brake or the output joins to the outside has none: that torque takes what is left.
pub(super) struct Joined {
    /// The equation of each shaft's group.
    pub(super) equation: Vec<Option<usize>>,
    /// How many there are.
    pub(super) equations: usize,
    /// Each shaft whose other torques are all known by then, and what takes their sum.
    pub(super) order: Vec<(usize, Link)>,
}

impl Joined {
    /// Groups the shafts that are `loaded`; `None` where elements join a group twice over, so that
    /// equilibrium does not tell which of them carries what.
    pub(super) fn of(train: &Train, loaded: &[bool], applied: &[usize]) -> Option<Self> {
        let elements = applied.iter().map(|&element| Link::Element(element));
        let mut links: Vec<Link> = elements.chain([Link::Output]).collect();
        let mut order: Vec<(usize, Link)> = Vec::new();
        while !links.is_empty() {
            let (shaft, last) = (0..loaded.len())
                .find_map(|shaft| Some((shaft, only_link(train, &links, shaft)?)))?;
            order.push((shaft, links.remove(last)));
        }
        let is_last = |shaft: usize| !order.iter().any(|&(known, _)| known == shaft);
        let mut equations = 0;
        let mut equation: Vec<Option<usize>> = (0..loaded.len())
            .map(|shaft| {
                let has_own = loaded[shaft] && is_last(shaft);
                equations += usize::from(has_own);
                has_own.then(|| equations - 1)
            })
            .collect();
        for &(shaft, link) in order.iter().rev() {
            let [first, second] = ends(train, link);
            let other = if first == Body::Shaft(shaft) {
                second
            } else {
                first
            };
            equation[shaft] = match other {
                Body::Housing => None,
                Body::Shaft(other) => equation[other],
            };
        }
        Some(Self {
            equation,
            equations,
            order,
        })
    }

    /// The equation of a body's group.
    pub(super) fn equation_of(&self, body: Body) -> Option<usize> {
        match body {
            Body::Housing => None,
            Body::Shaft(shaft) => self.equation[shaft],
        }
    }
}

/// The place of the only one of some links that a shaft has.
fn only_link(train: &Train, links: &[Link], shaft: usize) -> Option<usize> {
    let has = |link: &&Link| ends(train, **link).contains(&Body::Shaft(shaft));
    let first = links.iter().position(|link| has(&link))?;
    (links.iter().filter(has).count() == 1).then_some(first)
}

/// What a link joins; the output's torque comes from outside, as a brake's does.
fn ends(train: &Train, link: Link) -> [Body; 2] {
    match link {
        Link::Element(element) => train.ends(element),
        Link::Output => [Body::Shaft(train.output()), Body::Housing],
    }
}
