//! The levers of a train, one a coupling or joined where they always lie on one line.

use levertrain_exact::Fraction;

use super::{Lever, spread_out};
use crate::base::short_sort::{sort_short_by, sort_short_by_key};
use crate::model::coupling::Role;
use crate::train::{Body, Train};

/// A lever in a train: that of one coupling, or several that always lie on one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrainLever {
    /// Indices of its couplings, ascending.
    pub couplings: Vec<usize>,
    /// Its nodes in order of place, one for each body on it, the outermost at 0 and 1. Bodies
    /// that can only turn together have the same place.
    pub nodes: Vec<LeverNode>,
}

/// A body on a lever.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeverNode {
    /// The body.
    pub body: Body,
    /// Its place.
    pub place: Fraction,
    /// The members it is: coupling, and index among that coupling's members.
    pub members: Vec<(usize, usize)>,
}

impl TrainLever {
    /// The lever of each coupling that has one.
    pub fn separate(train: &Train) -> Vec<Self> {
        let couplings = train.scenario().couplings.iter().enumerate();
        couplings
            .filter_map(|(index, coupling)| {
                let lever = Lever::of(coupling)?;
                let placed = train.members(index).iter().zip(lever.places);
                let nodes = placed
                    .enumerate()
                    .map(|(member, (&body, place))| LeverNode {
                        body,
                        place,
                        members: vec![(index, member)],
                    })
                    .collect();
                Some(Self::new(vec![index], nodes))
            })
            .collect()
    }

    /// The levers of the train, those that share two bodies joined into one.
    ///
    /// Two points fix a line: over the places of the first lever the speeds of both lie on
    /// the line through the two shared bodies, once the places of the second are mapped so
    /// that these coincide (the combined lever of Benford and Leising). Joining goes on while
    /// it can, so that a third set may share one body with each of two joined ones. The
    /// housing counts as shared, except where it is only the frame of a gear pair: every pair
    /// has one, and joining all pairs on a shaft would show nothing.
    pub fn merged(train: &Train) -> Vec<Self> {
        let mut levers = Self::separate(train);
        let mut first = 0;
        while first < levers.len() {
            let joined = (first + 1..levers.len())
                .find_map(|second| Some((second, levers[first].joined(&levers[second], train)?)));
            match joined {
                // What did not fit before may fit the longer lever: look again.
                Some((second, lever)) => {
                    levers.remove(second);
                    levers[first] = lever;
                }
                None => first += 1,
            }
        }
        levers
    }

    fn new(mut couplings: Vec<usize>, mut nodes: Vec<LeverNode>) -> Self {
        sort_short_by_key(&mut couplings, |&coupling| coupling);
        sort_short_by(&mut nodes, |a, b| a.place.cmp(&b.place));
        Self { couplings, nodes }
    }

    fn node(&self, body: Body) -> Option<&LeverNode> {
        self.nodes.iter().find(|node| node.body == body)
    }

    /// This lever with `other` mapped onto it; `None` when they do not share two bodies, or
    /// when a third shared one would need two places.
    fn joined(&self, other: &Self, train: &Train) -> Option<Self> {
        let shared: Vec<(&LeverNode, &LeverNode)> = self
            .nodes
            .iter()
            .filter_map(|own| Some((own, other.node(own.body)?)))
            .collect();
        let mut tying = shared
            .iter()
            .filter(|(own, theirs)| own.ties(train) && theirs.ties(train));
        let (own, theirs) = tying.next()?;
        let map = tying.find_map(|(next_own, next_theirs)| {
            Affine::through(
                (&theirs.place, &own.place),
                (&next_theirs.place, &next_own.place),
            )
        })?;
        // A frame that does not tie must fit all the same.
        let fits = |(own, theirs): &(&LeverNode, &LeverNode)| map.of(&theirs.place) == own.place;
        if !shared.iter().all(fits) {
            return None;
        }

        let mut nodes = self.nodes.clone();
        for theirs in &other.nodes {
            match nodes.iter_mut().find(|node| node.body == theirs.body) {
                Some(node) => node.members.extend(&theirs.members),
                None => nodes.push(LeverNode {
                    place: map.of(&theirs.place),
                    ..theirs.clone()
                }),
            }
        }
        let raw: Vec<Fraction> = nodes.iter().map(|node| node.place.clone()).collect();
        for (node, place) in nodes.iter_mut().zip(spread_out(&raw)?) {
            node.place = place;
        }
        let couplings = [self.couplings.as_slice(), &other.couplings].concat();
        Some(Self::new(couplings, nodes))
    }
}

impl LeverNode {
    /// Whether sharing this body ties two levers together.
    fn ties(&self, train: &Train) -> bool {
        let is_frame = |&(coupling, member): &(usize, usize)| {
            let members = train.scenario().couplings[coupling].facts().members();
            members[member].role == Role::Frame
        };
        self.body != Body::Housing || !self.members.iter().all(is_frame)
    }
}

/// A map of places: `to + slope · (place − from)`.
struct Affine {
    from: Fraction,
    to: Fraction,
    slope: Fraction,
}

impl Affine {
    /// The map that takes the first of each pair to the second; `None` when either two
    /// coincide.
    fn through(
        (from, to): (&Fraction, &Fraction),
        (next_from, next_to): (&Fraction, &Fraction),
    ) -> Option<Self> {
        let slope = (next_to - to).over(&(next_from - from))?;
        (!slope.is_zero()).then(|| Self {
            from: from.clone(),
            to: to.clone(),
            slope,
        })
    }

    fn of(&self, place: &Fraction) -> Fraction {
        &self.to + &(&self.slope * &(place - &self.from))
    }
}
