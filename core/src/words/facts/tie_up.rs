//! What fights where the input cannot turn, and what would end it.

use levertrain_exact::Fraction;

use super::only;
use crate::base::element_set::ElementSet;
use crate::solve::fight::Fight;
use crate::solve::{Combination, State};
use crate::train::Body;

/// A smallest fight, and the way out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TieUp {
    /// What fights.
    pub fight: Fight,
    /// Those of its elements that free the input when released alone: where another fight remains,
    /// not every one does.
    pub freeing: ElementSet,
    /// What one of those forbids.
    pub would: Option<Would>,
}

/// How the ends of an element would turn past each other if it alone were released.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Would {
    /// The element.
    pub element: usize,
    /// Speed of its first end less that of the second, per input turn; not zero.
    pub slip: Fraction,
}

impl TieUp {
    pub(crate) fn of(combination: &Combination<'_>) -> Option<Self> {
        let fight = combination.fight()?;
        let train = combination.train();
        let released = |element| train.solve(combination.applied().without(element));
        let frees = |&element: &usize| *released(element).state() != State::TiedUp;
        let freeing: ElementSet = fight.elements.iter().filter(frees).collect();
        // What a brake holds is easier to see than two sides that would differ.
        let is_brake = |element: usize| train.ends(element)[1] == Body::Housing;
        let brakes: ElementSet = freeing
            .iter()
            .filter(|&element| is_brake(element))
            .collect();
        let would = brakes.iter().chain(freeing.minus(brakes).iter());
        let would = would.map(|element| (element, released(element).slip(element)));
        let would = would.into_iter().find_map(|(element, slip)| {
            slip.filter(|slip| !slip.is_zero())
                .map(|slip| Would { element, slip })
        });
        Some(Self {
            would: would.filter(|would| only(would.element) != fight.elements),
            fight,
            freeing,
        })
    }
}
