//! What helps on from an answer: typed, each computed from the exact solution.

use levertrain_exact::State;

use super::members::Does;
use super::read::Way;
use super::task::{Part, in_range};
use crate::base::catalogue::{Catalogue, Values};
use crate::base::element_set::ElementSet;
use crate::model::coupling::Role;
use crate::model::scenario::limits::{TEETH_MAX, TEETH_MIN};
use crate::train::{Body, Train};
use crate::words::{listed, noun};

/// One hint.
#[derive(Debug, Clone, PartialEq)]
pub enum Hint {
    /// Nothing is chosen, or something that was not offered.
    NoChoice,
    /// What was written is no number.
    NoNumber,
    /// What was written are no tooth counts.
    NoTeeth,
    /// The train does not answer this question.
    NoAnswer,
    /// It is something else.
    NotThat,
    /// It turns the other way.
    OtherWay,
    /// The output turns too slowly.
    TooSlow,
    /// The output turns too fast.
    TooFast,
    /// It turns slower than was said.
    LessFast,
    /// It turns faster than was said.
    MoreFast,
    /// The size is right, the direction is not.
    OnlyTheWay,
    /// That is one over it.
    Reciprocal,
    /// It is right, with more applied than needed.
    Spare,
    /// So many elements are to be applied or released.
    Changes(usize),
    /// What a combination does instead.
    Does(ElementSet, State),
    /// So many more are right.
    Missing(usize),
    /// What a member that was picked does instead.
    Member {
        /// Index of the set.
        set: usize,
        /// Its index among the members.
        member: usize,
        /// What it does; nothing where it carries no torque.
        part: Option<Part>,
        /// Whether it stands still.
        rests: bool,
    },
    /// How other members of a set turn that the shaft is on.
    Look {
        /// Index of the set.
        set: usize,
        /// Indices of one or two of its members, with the way they turn.
        members: Vec<(usize, Way)>,
    },
    /// Were it this element, a range would become something else; `None` is all released.
    Becomes {
        /// Index of the element.
        element: usize,
        /// Index of the range.
        range: Option<usize>,
    },
    /// Two ranges, by their indices, that stand in the wrong order.
    Compare(usize, usize),
    /// Ranges that stand in the order just the other way round.
    Reversed,
    /// A tooth rule that is broken, in words.
    Rule(String),
}

impl Hint {
    pub(super) fn of_member(set: usize, does: Does) -> Self {
        let part = match (does.torque, does.power) {
            (0, _) => None,
            (_, 0) => Some(Part::Held),
            (_, 1..) => Some(Part::Driving),
            _ => Some(Part::Driven),
        };
        Self::Member {
            set,
            member: does.member,
            part,
            rests: does.rests,
        }
    }

    /// The message of a hint that takes no values.
    fn key(&self) -> &'static str {
        match self {
            Self::NoChoice => "hint-no-choice",
            Self::NoNumber => "hint-no-number",
            Self::NoAnswer => "hint-no-answer",
            Self::OtherWay => "hint-other-way",
            Self::TooSlow => "hint-too-slow",
            Self::TooFast => "hint-too-fast",
            Self::LessFast => "hint-less-fast",
            Self::MoreFast => "hint-more-fast",
            Self::OnlyTheWay => "hint-only-the-way",
            Self::Reciprocal => "hint-reciprocal",
            Self::Spare => "hint-spare",
            Self::Reversed => "hint-back-to-front",
            _ => "hint-not-that",
        }
    }

    /// The hint as a sentence.
    pub fn words(&self, train: &Train) -> String {
        let say = |key: &str, count: usize, values: Values<'_>| {
            Catalogue::spoken().write(key, count, values)
        };
        let set_label = |set: usize| noun(train.scenario().couplings[set].facts().label());
        let role = |set: usize, member: usize| -> Role {
            train.scenario().couplings[set].facts().members()[member].role
        };
        match self {
            Self::NoTeeth => {
                let [least, most] = [TEETH_MIN, TEETH_MAX].map(|count| count.to_string());
                say("hint-no-teeth", 0, &[("least", &least), ("most", &most)])
            }
            Self::Changes(count) => say("hint-changes", *count, &[]),
            Self::Missing(count) => say("hint-missing", *count, &[]),
            Self::Does(set, state) => {
                let values = [
                    ("elements", &*elements(train, *set)),
                    ("state", state_key(state)),
                ];
                say("hint-does", 0, &values)
            }
            Self::Member {
                set,
                member,
                part,
                rests,
            } => {
                let does = match (part, rests) {
                    (Some(Part::Held), _) => "held",
                    (Some(Part::Driving), _) => "drives",
                    (Some(Part::Driven), _) => "delivers",
                    (None, true) => "rests",
                    (None, false) => "idles",
                };
                let values = [("member", role(*set, *member).word()), ("does", does)];
                say("hint-member", 0, &values)
            }
            Self::Look { set, members } => {
                let set_label = set_label(*set);
                let mut values = vec![("set", &*set_label)];
                let names = [("first", "first-way"), ("second", "second-way")];
                for ((name, name_of_way), (member, way)) in names.into_iter().zip(members) {
                    values.push((name, role(*set, *member).word()));
                    values.push((name_of_way, way.id()));
                }
                let key = if members.len() > 1 {
                    "hint-look"
                } else {
                    "hint-look-one"
                };
                say(key, 0, &values)
            }
            Self::Compare(one, other) => {
                let ranges = &train.scenario().ranges;
                let values = [
                    ("first", &*ranges[*one].label),
                    ("second", &*ranges[*other].label),
                ];
                say("hint-compare", 0, &values)
            }
            Self::Becomes { element, range } => {
                let element = elements(train, ElementSet::NONE.with(*element));
                say(
                    "hint-becomes",
                    0,
                    &[
                        ("element", &element),
                        ("range", &trial_label(train, *range)),
                    ],
                )
            }
            Self::Rule(text) => say("hint-rule", 0, &[("rule", text)]),
            _ => say(self.key(), 0, &[]),
        }
    }
}

/// The names of elements; of none, that there are none.
pub(super) fn elements(train: &Train, set: ElementSet) -> String {
    let labels = set
        .iter()
        .map(|element| noun(train.scenario().elements[element].label()));
    let labels: Vec<String> = labels.collect();
    if labels.is_empty() {
        return Catalogue::spoken().plain("ask-none").to_owned();
    }
    listed(&labels)
}

/// What a range that is tried is called.
pub(super) fn trial_label(train: &Train, range: Option<usize>) -> String {
    match range {
        Some(range) => train.scenario().ranges[range].label.clone(),
        None => Catalogue::spoken().plain("ask-none").to_owned(),
    }
}

fn state_key(state: &State) -> &'static str {
    match state {
        State::Driving(_) | State::OverApplied(_) => "driving",
        State::Neutral => "neutral",
        State::OutputHeld => "output-held",
        State::TiedUp => "tied-up",
    }
}

/// How the other members turn of a set that a shaft is on, the first whose speeds say something of it.
pub(super) fn look_at(train: &Train, range: usize, shaft: usize) -> Option<Hint> {
    let combination = in_range(train, range);
    (0..train.scenario().couplings.len()).find_map(|set| {
        let bodies = train.members(set);
        if !bodies.contains(&Body::Shaft(shaft)) {
            return None;
        }
        let roles = train.scenario().couplings[set].facts().members();
        let others = bodies.iter().enumerate().filter(|&(member, &body)| {
            body != Body::Shaft(shaft) && roles[member].role != Role::Frame
        });
        let ways =
            others.map(|(member, &body)| (member, Way::of(combination.body_speed(body).as_ref())));
        let members: Vec<_> = ways.filter(|(_, way)| *way != Way::Free).take(2).collect();
        (!members.is_empty()).then_some(Hint::Look { set, members })
    })
}
