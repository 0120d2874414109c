//! Shafts that applied elements join: one equation each group, and the order in which the torques
//! of the elements follow from it.

use crate::train::{Body, Train};

/// What passes a torque on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Link {
    /// An applied element.
    Element(usize),
    /// What the output drives.
    Output,
}

/// A shaft whose other torques are known by the time that a link takes their sum.
#[derive(Debug, Clone, Copy)]
pub(super) struct Passing {
    pub(super) shaft: usize,
    pub(super) link: Link,
    /// Whether the shaft is at the link's first end.
    pub(super) forwards: bool,
    /// Where the torque goes.
    pub(super) other: Body,
}

/// The loaded shafts in groups that applied elements join.
///
/// Inside a group the torques of the elements cancel, so that only their sum is an equation. A
/// group that a brake or the output joins to the outside has none: that torque takes what is left.
#[derive(Default)]
pub(super) struct Joined {
    /// The equation of each shaft's group.
    pub(super) equation: Vec<Option<usize>>,
    /// How many there are.
    pub(super) equations: usize,
    /// Each shaft that passes on what is left of its torques, in an order in which it is known.
    pub(super) order: Vec<Passing>,
    /// The links whose torque is not known yet.
    links: Vec<Link>,
    /// How many of them each shaft has.
    counts: Vec<usize>,
}

impl Joined {
    /// Groups the shafts that are `loaded`; `None` where elements join a group twice over, so that
    /// equilibrium does not tell which of them carries what.
    pub(super) fn read(&mut self, train: &Train, loaded: &[bool], applied: &[usize]) -> Option<()> {
        self.links.clear();
        self.links
            .extend(applied.iter().copied().map(Link::Element));
        self.links.push(Link::Output);
        self.counts.clear();
        self.counts.resize(loaded.len(), 0);
        for &link in &self.links {
            for shaft in shafts(train, link) {
                self.counts[shaft] += 1;
            }
        }
        self.order.clear();
        while !self.links.is_empty() {
            let shaft = self.counts.iter().position(|&count| count == 1)?;
            self.pass_on(train, shaft)?;
        }
        for passing in &self.order {
            self.counts[passing.shaft] = 1;
        }
        self.equations = 0;
        self.equation.clear();
        for (&count, &loaded) in self.counts.iter().zip(loaded) {
            let has_own = loaded && count == 0;
            self.equation.push(has_own.then_some(self.equations));
            self.equations += usize::from(has_own);
        }
        for passing in self.order.iter().rev() {
            self.equation[passing.shaft] = self.equation_of(passing.other);
        }
        Some(())
    }

    /// Lets a shaft pass on what is left by its only link.
    fn pass_on(&mut self, train: &Train, shaft: usize) -> Option<()> {
        let at = Body::Shaft(shaft);
        let mut links = self.links.iter();
        let only = links.position(|&link| ends(train, link).contains(&at))?;
        let link = self.links.remove(only);
        let [first, second] = ends(train, link);
        let forwards = first == at;
        self.order.push(Passing {
            shaft,
            link,
            forwards,
            other: if forwards { second } else { first },
        });
        for shaft in shafts(train, link) {
            self.counts[shaft] -= 1;
        }
        Some(())
    }

    /// The equation of a body's group.
    pub(super) fn equation_of(&self, body: Body) -> Option<usize> {
        match body {
            Body::Housing => None,
            Body::Shaft(shaft) => self.equation[shaft],
        }
    }
}

/// What a link joins; the output's torque comes from outside, as a brake's does.
fn ends(train: &Train, link: Link) -> [Body; 2] {
    match link {
        Link::Element(element) => train.ends(element),
        Link::Output => [Body::Shaft(train.output()), Body::Housing],
    }
}

/// The shafts among what it joins.
fn shafts(train: &Train, link: Link) -> impl Iterator<Item = usize> {
    let shaft = |body| match body {
        Body::Housing => None,
        Body::Shaft(shaft) => Some(shaft),
    };
    ends(train, link).into_iter().filter_map(shaft)
}
