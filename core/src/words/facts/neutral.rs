//! Why the input does not decide the output.

use super::Missing;
use crate::base::element_set::ElementSet;
use crate::solve::settle::Duty;
use crate::solve::{Combination, State};
use crate::train::Body;

/// Why a combination is neutral, and what would make it drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Neutral {
    /// Where the input moves nothing whose speed it does not decide.
    pub input: Option<Unconnected>,
    /// Where the output is joined to no gear.
    pub output: Option<Unconnected>,
    /// Whether input and output would be connected but for a member that takes the reaction.
    pub reaction: bool,
    /// What more it takes.
    pub missing: Missing,
}

/// Input or output, where it turns without moving anything whose speed it does not decide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unconnected {
    /// Whether no gear turns with it.
    pub alone: bool,
    /// The elements that would connect it.
    pub open: ElementSet,
}

impl Neutral {
    pub(crate) fn of(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        // Sets that nothing else decides turn with the output: what they lack is the reaction.
        let output = Unconnected::of(combination, train.output()).filter(|end| end.alone);
        let input =
            Unconnected::of(combination, train.input()).filter(|end| end.alone || output.is_none());
        let connecting_is_enough = input.as_ref().is_some_and(|input| {
            let applied = combination.applied().minus(train.one_ways());
            input.open.iter().any(|element| {
                let settled = train.settle(applied.with(element), Duty::Drive);
                *settled.combination.state() != State::Neutral
            })
        });
        Self {
            reaction: output.is_none() && !connecting_is_enough,
            input,
            output,
            missing: Missing::of(combination),
        }
    }
}

impl Unconnected {
    fn of(combination: &Combination<'_>, shaft: usize) -> Option<Self> {
        let train = combination.train();
        let with = combination.alone_with(shaft)?;
        let inside = |body| with.iter().any(|&(shaft, _)| body == Body::Shaft(shaft));
        let connects = |&element: &usize| {
            let [from, to] = train.ends(element);
            inside(from) != inside(to) && to != Body::Housing
        };
        let elements = 0..train.scenario().elements.len();
        let mut bodies = (0..train.scenario().couplings.len()).flat_map(|at| train.members(at));
        Some(Self {
            alone: !bodies.any(|&body| inside(body)),
            open: elements.filter(connects).collect(),
        })
    }
}
