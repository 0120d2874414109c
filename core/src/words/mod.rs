//! What a combination does, in sentences a student understands.

mod missing;
mod names;
mod reasons;
mod spare;

use levertrain_exact::Fraction;

pub use self::missing::Missing;
use self::names::begun;
pub use self::names::{listed, noun};
pub use self::spare::Spare;

use self::reasons::{neutral, output_held, tie_up};
use crate::base::element_set::ElementSet;
use crate::model::coupling::Coupling;
use crate::model::scenario::Element;
use crate::solve::settle::Duty;
use crate::solve::{Combination, State};
use crate::train::{Body, Train};

pub use crate::base::number::number;

/// A combination in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// The state in a word or two.
    pub state: &'static str,
    /// The answer in one short line: ratio and direction, or why there is none.
    pub answer: String,
    /// Who holds, who drives, who delivers; one sentence each.
    pub sentences: Vec<String>,
}

impl Words {
    /// Describes a combination.
    pub fn of(combination: &Combination<'_>) -> Self {
        let mut sentences = applied_sentences(combination);
        let (state, answer) = match combination.state() {
            State::Driving(ratio) => {
                sentences.push(delivery(combination, ratio));
                sentences.extend(surplus(combination));
                ("Drives", drive_line(ratio))
            }
            State::OverApplied(ratio) => {
                sentences.push(delivery(combination, ratio));
                sentences.extend(surplus(combination));
                ("Over-applied", drive_line(ratio))
            }
            State::Neutral => {
                sentences.push(neutral(combination));
                ("Neutral", "the output is free".to_owned())
            }
            State::OutputHeld => {
                sentences.extend(output_held(combination));
                ("Output held", "the output stands still".to_owned())
            }
            State::TiedUp => {
                sentences.extend(tie_up(combination));
                ("Tied up", "the input cannot turn".to_owned())
            }
        };
        if *combination.state() != State::TiedUp {
            sentences.extend(floating(combination));
        }
        Self {
            state,
            answer,
            sentences,
        }
    }
}

fn drive_line(ratio: &Fraction) -> String {
    let size = ratio.to_f64().abs();
    let way = if ratio.signum() < 0 {
        "reverse"
    } else {
        "forward"
    };
    let kind = match size.partial_cmp(&1.0) {
        Some(std::cmp::Ordering::Less) => "output faster than input",
        Some(std::cmp::Ordering::Greater) => "output slower than input",
        _ if ratio.signum() < 0 => "output as fast as input",
        _ => "direct drive",
    };
    format!("{way}, {kind}")
}

fn element_labels(train: &Train, set: ElementSet) -> Vec<String> {
    set.iter()
        .map(|index| noun(train.scenario().elements[index].label()))
        .collect()
}

fn body_noun(train: &Train, body: Body) -> String {
    noun(train.body_label(body))
}

/// One sentence on what is held, one on what is joined.
fn applied_sentences(combination: &Combination<'_>) -> Vec<String> {
    let train = combination.train();
    if combination.applied().is_empty() {
        return vec!["Every clutch and brake is released.".to_owned()];
    }
    let parts: Vec<String> = combination
        .applied()
        .iter()
        .map(|index| {
            let element = &train.scenario().elements[index];
            let label = noun(element.label());
            let [from, to] = train.ends(index);
            let input = Body::Shaft(train.input());
            match element {
                Element::Brake(_) => format!("{label} holds {}", body_noun(train, from)),
                Element::OneWay(_) => format!(
                    "{label} locks {} to {} by itself",
                    body_noun(train, from),
                    body_noun(train, to)
                ),
                Element::Clutch(_) if from == input || to == input => {
                    let driven = if from == input { to } else { from };
                    format!("{label} lets the input drive {}", body_noun(train, driven))
                }
                Element::Clutch(_) => {
                    format!(
                        "{label} joins {} to {}",
                        body_noun(train, from),
                        body_noun(train, to)
                    )
                }
            }
        })
        .collect();
    vec![begun(format!("{}.", parts.join("; ")))]
}

fn delivery(combination: &Combination<'_>, ratio: &Fraction) -> String {
    let train = combination.train();
    let output = body_noun(train, Body::Shaft(train.output()));
    let all_as_one = (0..train.scenario().shafts.len())
        .all(|shaft| combination.shaft_speed(shaft) == Some(Fraction::ONE));
    if all_as_one {
        return format!("Everything turns as one piece, so {output} keeps the input's speed.");
    }
    let way = if ratio.signum() < 0 {
        "in the opposite direction"
    } else {
        "in the same direction"
    };
    let pace = match ratio.abs().cmp(&Fraction::ONE) {
        std::cmp::Ordering::Less => "faster than the input",
        std::cmp::Ordering::Equal => "as fast as the input",
        std::cmp::Ordering::Greater => "slower than the input",
    };
    begun(format!("{output} delivers, {pace} and {way}."))
}

/// What stands side by side; one-way clutches, which nobody can release, in words of their own.
fn surplus(combination: &Combination<'_>) -> Vec<String> {
    let train = combination.train();
    let Spare {
        idle,
        brakes,
        coasting,
        keeps_locked,
    } = Spare::of(combination);
    let names = |set| listed(&element_labels(train, set));
    let mut sentences = Vec::new();
    match idle.len() {
        0 => {}
        1 => sentences.push(format!(
            "More is applied than needed: {} could be released and nothing would change.",
            names(idle)
        )),
        _ => sentences.push(format!(
            "More is applied than needed: any one of {} could be released and nothing would change.",
            names(idle)
        )),
    }
    for (set, when) in [
        (brakes, "for engine braking"),
        (coasting, "when the load drives"),
    ] {
        for element in set.iter() {
            let [name, instead] = [
                ElementSet::NONE.with(element),
                stands_in(combination, element),
            ];
            let [name, instead] = [name, instead].map(names);
            let otherwise = if instead.is_empty() {
                "nothing would change without it".to_owned()
            } else {
                format!("{instead} would lock in its place")
            };
            sentences.push(begun(format!(
                "{name} is needed only {when}: while the input drives, {otherwise}."
            )));
        }
    }
    for (element, lets_go) in keeps_locked {
        let [kept, let_go] = [ElementSet::NONE.with(element), lets_go].map(names);
        sentences.push(format!("Without {kept}, {let_go} would no longer lock."));
    }
    let locked = element_labels(
        train,
        combination
            .releasable()
            .minus(combination.applied().minus(train.one_ways())),
    );
    if locked.len() > 1 {
        sentences.push(begun(format!(
            "{} lock side by side: equilibrium does not say who carries how much.",
            listed(&locked)
        )));
    }
    sentences
}

/// The one-way clutches that lock, driving, once `element` is released.
fn stands_in(combination: &Combination<'_>, element: usize) -> ElementSet {
    let train = combination.train();
    let fewer = combination
        .applied()
        .minus(train.one_ways())
        .without(element);
    let settled = train.settle(fewer, Duty::Drive).combination;
    settled.applied().minus(combination.applied())
}

fn label_of(coupling: &Coupling) -> String {
    noun(coupling.facts().label())
}

/// Members other than the output that no equation decides.
fn floating(combination: &Combination<'_>) -> Option<String> {
    let train = combination.train();
    let free: Vec<String> = (0..train.scenario().shafts.len())
        .filter(|&shaft| shaft != train.output() && combination.shaft_speed(shaft).is_none())
        .map(|shaft| body_noun(train, Body::Shaft(shaft)))
        .collect();
    (!free.is_empty()).then(|| {
        let verb = if free.len() == 1 {
            "is free: nothing decides its speed"
        } else {
            "are free: nothing decides their speeds"
        };
        begun(format!("{} {verb}.", listed(&free)))
    })
}

#[cfg(test)]
mod tests;
