//! Why the input does not drive the output, or cannot turn.

use super::missing::Missing;
use super::names::{begun, listed, one_of};
use super::{element_labels, label_of};
use crate::base::element_set::ElementSet;
use crate::solve::fight::Fight;
use crate::solve::settle::Duty;
use crate::solve::{Combination, State};
use crate::train::{Body, Train};

/// Most elements that are named where any one of them would do.
const MOST_NAMED: usize = 4;

/// Why the output is free.
pub(super) fn neutral(combination: &Combination<'_>) -> String {
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
    let reaction = output.is_none() && !connecting_is_enough;
    let mut reasons = Vec::new();
    if let Some(input) = input {
        let what = if input.alone {
            "the input is connected to nothing"
        } else {
            "what the input turns is connected to nothing else"
        };
        reasons.push(input.because(train, what));
    }
    if let Some(output) = output {
        reasons.push(output.because(train, "the output is connected to nothing"));
    }
    if reaction {
        reasons.push("nothing takes the reaction, so the output is free".to_owned());
    }
    format!("Neutral: {}.{}", reasons.join("; "), missing(combination))
}

/// What more would make it drive.
fn missing(combination: &Combination<'_>) -> String {
    let train = combination.train();
    match Missing::of(combination) {
        Missing::OneOf(elements) if elements.len() <= MOST_NAMED => {
            let names = one_of(&element_labels(train, elements));
            format!(" {} would make it drive.", begun(names))
        }
        Missing::OneOf(_) => " One more, rightly chosen, would make it drive.".to_owned(),
        Missing::Several(count) => {
            format!(" It takes {count} more clutches or brakes, rightly chosen, to make it drive.")
        }
        Missing::Nothing if train.scenario().elements.is_empty() => {
            " There is no clutch or brake to make it drive.".to_owned()
        }
        Missing::Nothing => " None of the other clutches and brakes can make it drive.".to_owned(),
        Missing::Unknown => String::new(),
    }
}

/// Input or output, where it turns without moving anything whose speed it does not decide.
struct Unconnected {
    /// Whether no gear turns with it.
    alone: bool,
    /// The elements that would connect it.
    open: ElementSet,
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

    fn because(&self, train: &Train, what: &str) -> String {
        let open = element_labels(train, self.open);
        match open.len() {
            0 => what.to_owned(),
            1 => format!("{what}, because {} is open", listed(&open)),
            _ => format!("{what}, because {} are open", listed(&open)),
        }
    }
}

/// What holds the output.
pub(super) fn output_held(combination: &Combination<'_>) -> Option<String> {
    let hold = combination.hold()?;
    let [elements, couplings] = labels(combination.train(), &hold);
    let holders = match (elements.as_slice(), couplings.as_slice()) {
        ([], _) => listed(&couplings),
        (_, []) => listed(&elements),
        _ => format!("{} with {}", listed(&elements), listed(&couplings)),
    };
    let several = elements.len() > 1 || (elements.is_empty() && couplings.len() > 1);
    let verb = if several { "hold" } else { "holds" };
    Some(begun(format!(
        "{holders} {verb} the output still, however the input turns."
    )))
}

/// What fights, and what would end it.
pub(super) fn tie_up(combination: &Combination<'_>) -> Option<String> {
    let fight = combination.fight()?;
    let [elements, couplings] = labels(combination.train(), &fight);
    let couplings = listed(&couplings);
    let through = if couplings.is_empty() {
        String::new()
    } else {
        format!(" through {couplings}")
    };
    let cause = match elements.as_slice() {
        [] => format!("Tied up by {couplings} alone: the input cannot turn."),
        [one] => format!("Tied up: {one} alone holds the input{through}."),
        several => format!(
            "Tied up: {} fight each other{through}, so the input cannot turn.",
            listed(several)
        ),
    };
    Some(cause + &way_out(combination, fight.elements))
}

/// Which of the elements that fight free the input when released alone: where another fight
/// remains, not every one does.
fn way_out(combination: &Combination<'_>, fighting: ElementSet) -> String {
    let train = combination.train();
    let frees = |&element: &usize| {
        let fewer = combination.applied().without(element);
        *train.solve(fewer).state() != State::TiedUp
    };
    let freeing: ElementSet = fighting.iter().filter(frees).collect();
    let one_of = |set| one_of(&element_labels(train, set));
    if fighting.is_empty() {
        String::new()
    } else if freeing.is_empty() {
        " There is more than one fight: release at least two.".to_owned()
    } else if freeing != fighting {
        format!(
            " There is more than one fight: releasing {} ends them all, releasing {} does not.",
            one_of(freeing),
            one_of(fighting.minus(freeing))
        )
    } else if fighting.len() > 1 {
        " Releasing any one of them ends this fight.".to_owned()
    } else {
        String::new()
    }
}

/// What the elements and the couplings are called.
fn labels(train: &Train, fight: &Fight) -> [Vec<String>; 2] {
    let couplings = fight.couplings.iter();
    let known = couplings.filter_map(|&index| train.scenario().couplings.get(index));
    [
        element_labels(train, fight.elements),
        known.map(label_of).collect(),
    ]
}
