//! What a combination does, in sentences a student understands.

mod reasons;

use levertrain_exact::Fraction;

use self::reasons::{neutral, output_held, tie_up};
use crate::base::element_set::ElementSet;
use crate::model::coupling::Coupling;
use crate::model::scenario::Element;
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

/// Names in a sentence: `A`, `A and B`, `A, B and C`.
pub fn listed<S: AsRef<str>>(names: &[S]) -> String {
    match names {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => {
            let most: Vec<&str> = most.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", most.join(", "), last.as_ref())
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

fn element_labels(train: &Train, set: ElementSet) -> Vec<&str> {
    set.iter()
        .map(|index| train.scenario().elements[index].label())
        .collect()
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
            let label = element.label();
            let [from, to] = train.ends(index);
            let input = Body::Shaft(train.input());
            match element {
                Element::Brake(_) => format!("{label} holds {}", train.body_label(from)),
                Element::OneWay(_) => format!(
                    "{label} locks {} to {} by itself",
                    train.body_label(from),
                    train.body_label(to)
                ),
                Element::Clutch(_) if from == input || to == input => {
                    let driven = if from == input { to } else { from };
                    format!("{label} lets the input drive {}", train.body_label(driven))
                }
                Element::Clutch(_) => {
                    format!(
                        "{label} joins {} to {}",
                        train.body_label(from),
                        train.body_label(to)
                    )
                }
            }
        })
        .collect();
    vec![format!("{}.", parts.join("; "))]
}

fn delivery(combination: &Combination<'_>, ratio: &Fraction) -> String {
    let train = combination.train();
    let output = train.body_label(Body::Shaft(train.output()));
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
    format!("{output} delivers, {pace} and {way}.")
}

/// What stands side by side; one-way clutches, which nobody can release, in words of their own.
fn surplus(combination: &Combination<'_>) -> Vec<String> {
    let train = combination.train();
    let releasable = combination.releasable();
    let applied = releasable.minus(train.one_ways());
    let locked = element_labels(train, releasable.minus(applied));
    let mut sentences = Vec::new();
    if !applied.is_empty() {
        sentences.push(format!(
            "More is applied than needed: any one of {} could be released and nothing would change.",
            listed(&element_labels(train, applied))
        ));
    }
    if locked.len() > 1 {
        sentences.push(format!(
            "{} lock side by side: equilibrium does not say who carries how much.",
            listed(&locked)
        ));
    }
    sentences
}

fn label_of(coupling: &Coupling) -> &str {
    coupling.facts().label()
}

/// Members other than the output that no equation decides.
fn floating(combination: &Combination<'_>) -> Option<String> {
    let train = combination.train();
    let free: Vec<&str> = (0..train.scenario().shafts.len())
        .filter(|&shaft| shaft != train.output() && combination.shaft_speed(shaft).is_none())
        .map(|shaft| train.body_label(Body::Shaft(shaft)))
        .collect();
    (!free.is_empty()).then(|| {
        let verb = if free.len() == 1 {
            "is free: nothing decides its speed"
        } else {
            "are free: nothing decides their speeds"
        };
        format!("{} {verb}.", listed(&free))
    })
}

#[cfg(test)]
mod tests;
