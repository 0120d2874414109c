//! Facts as sentences of a catalogue.

mod fights;
mod neutral;
mod reasons;
mod spare;

use super::facts::{Does, Fact, Pace};
use super::names::{Case, begun, listed, noun_as, parted};
use crate::base::catalogue::{Catalogue, Values};
use crate::base::element_set::ElementSet;
use crate::model::coupling::Role;
use crate::train::{Body, Train};

/// Writes about one train.
pub(crate) struct Speaker<'a> {
    pub(crate) words: Catalogue,
    pub(crate) train: &'a Train,
    /// What was written, each to stand by itself.
    pub(crate) sentences: Vec<String>,
}

impl Speaker<'_> {
    /// Writes about all facts of a combination. Why it drives so is one paragraph; where nothing is
    /// to be said of that, how the output turns stands in its place.
    pub(super) fn tell_all(&mut self, facts: &[Fact]) {
        let mut why = String::new();
        for fact in facts {
            if let Some(reason) = self.reason(fact) {
                why = self.and_also(why, &begun(reason));
                continue;
            }
            let delivers = matches!(fact, Fact::Delivers(..));
            if delivers && !why.is_empty() {
                self.sentences.push(std::mem::take(&mut why));
            } else {
                self.tell(fact);
            }
        }
    }

    /// One reason why a combination drives as it does.
    fn reason(&self, fact: &Fact) -> Option<String> {
        Some(match fact {
            Fact::Joined => self.plain("joined"),
            Fact::AsOne(as_one) => self.as_one(as_one),
            Fact::Works(work) => self.work(work),
            Fact::Strut(set) => self.say("strut", 0, &[("set", &self.set(*set, Case::Subject))]),
            _ => return None,
        })
    }

    fn tell(&mut self, fact: &Fact) {
        let sentence = match fact {
            Fact::Applied(does) => self.applied(does),
            Fact::Delivers(pace, same_way) => {
                let output = self.body(Body::Shaft(self.train.output()), Case::Subject);
                let values = [("output", &*output), pace_of(*pace), way_of(*same_way)];
                self.say("delivers", 0, &values)
            }
            Fact::Spare(spare) => return self.spare(spare),
            Fact::Neutral(neutral) => self.neutral(neutral),
            Fact::OutputHeld(fight) => self.output_held(fight),
            Fact::TiedUp(tie_up) => self.tied_up(tie_up),
            Fact::Free(shafts) => {
                let mut names = Vec::new();
                for &shaft in shafts {
                    names.push(self.body(Body::Shaft(shaft), Case::Subject));
                }
                self.say("free", names.len(), &[("shafts", &listed(&names))])
            }
            // Reasons why it drives are told before.
            Fact::Joined | Fact::AsOne(_) | Fact::Works(_) | Fact::Strut(_) => return,
        };
        self.add(sentence);
    }

    pub(crate) fn add(&mut self, sentence: String) {
        self.sentences.push(begun(sentence));
    }

    pub(crate) fn plain(&self, key: &str) -> String {
        self.words.plain(key).to_owned()
    }

    // Not inline: nearly every sentence asks for it, and an engine would carry it as often.
    #[inline(never)]
    pub(crate) fn say(&self, key: &str, count: usize, values: Values<'_>) -> String {
        self.words.write(key, count, values)
    }

    pub(crate) fn body(&self, body: Body, case: Case) -> String {
        noun_as(self.train.body_label(body), case)
    }

    pub(crate) fn set(&self, coupling: usize, case: Case) -> String {
        let facts = self.train.scenario().couplings[coupling].facts();
        noun_as(facts.label(), case)
    }

    pub(crate) fn sets(&self, couplings: &[usize], case: Case) -> String {
        let mut names = Vec::new();
        for &coupling in couplings {
            names.push(self.set(coupling, case));
        }
        listed(&names)
    }

    fn names(&self, set: ElementSet, case: Case) -> Vec<String> {
        let mut names = Vec::new();
        for index in set.iter() {
            names.push(noun_as(self.train.scenario().elements[index].label(), case));
        }
        names
    }

    pub(crate) fn elements(&self, set: ElementSet, case: Case) -> String {
        listed(&self.names(set, case))
    }

    pub(crate) fn element(&self, element: usize, case: Case) -> String {
        self.elements(ElementSet::NONE.with(element), case)
    }

    /// A member in a sentence, with its article.
    pub(crate) fn member(&self, role: Role, case: Case) -> String {
        let values = [("member", role.word()), ("role", role.key()), case.value()];
        self.say("member", 0, &values)
    }

    pub(crate) fn role(&self, coupling: usize, member: usize) -> Role {
        self.train.scenario().couplings[coupling].facts().members()[member].role
    }

    /// Whether the train has but one set, which then needs no name.
    pub(crate) fn is_alone(&self) -> bool {
        self.train.scenario().couplings.len() == 1
    }

    /// One more sentence beside another, if there is one.
    fn and_also(&self, mut text: String, more: &str) -> String {
        if !text.is_empty() && !more.is_empty() {
            text.push(' ');
        }
        text.push_str(more);
        text
    }

    pub(crate) fn applied(&self, does: &[(usize, Does)]) -> String {
        if does.is_empty() {
            return self.plain("none-applied");
        }
        let mut parts = Vec::new();
        for &(element, does) in does {
            use Case::{Dative, Object};
            let (key, first, second) = match does {
                Does::Holds(body) => ("does-hold", (body, Object), (body, Object)),
                Does::Locks(first, second) => ("does-lock", (first, Object), (second, Object)),
                Does::Drives(body) => ("does-drive", (body, Dative), (body, Dative)),
                Does::Joins(first, second) => ("does-join", (first, Object), (second, Dative)),
            };
            let values = [
                ("element", &*self.element(element, Case::Subject)),
                ("first", &self.body(first.0, first.1)),
                ("second", &self.body(second.0, second.1)),
            ];
            parts.push(self.say(key, 0, &values));
        }
        self.say("applied", 0, &[("all", &parted(&parts))])
    }
}

pub(super) fn pace_of(pace: Pace) -> (&'static str, &'static str) {
    let word = match pace {
        Pace::Slower => "slower",
        Pace::Alike => "alike",
        Pace::Faster => "faster",
    };
    ("pace", word)
}

pub(super) fn way_of(same: bool) -> (&'static str, &'static str) {
    ("way", if same { "same" } else { "opposite" })
}
