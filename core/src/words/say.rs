//! Facts as sentences of a catalogue.

use levertrain_exact::Fraction;

use super::facts::{
    AsOne, Does, Fact, Hold, Missing, Motion, Neutral, Pace, Place, SetWork, Spare, TieUp,
    Unconnected, Would,
};
use super::names::{Case, begun, listed, noun_as, one_of, parted};
use crate::base::catalogue::{Catalogue, Values};
use crate::base::element_set::ElementSet;
use crate::base::number::number;
use crate::model::coupling::Role;
use crate::solve::fight::Fight;
use crate::train::{Body, Train};

/// Most elements that are named where any one of them would do.
const MOST_NAMED: usize = 4;

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

    pub(crate) fn as_one(&self, as_one: &AsOne) -> String {
        let what = if as_one.whole {
            self.plain("all-as-one")
        } else {
            let sets = self.sets(&as_one.couplings, Case::Subject);
            self.say("sets-as-one", as_one.couplings.len(), &[("sets", &sets)])
        };
        let Some(alike) = &as_one.alike else {
            return self.say("as-one-alone", 0, &[("what", &what)]);
        };
        let [(set, first), (other_set, second)] = alike.members;
        let key = if self.is_alone() {
            "pair-alone"
        } else if set == other_set {
            "pair-same-set"
        } else {
            "pair-apart"
        };
        let values = [
            ("first", &*self.member(self.role(set, first), Case::Object)),
            (
                "second",
                &self.member(self.role(other_set, second), Case::Object),
            ),
            ("set", &self.set(set, Case::Dative)),
            ("other-set", &self.set(other_set, Case::Dative)),
        ];
        let pair = self.say(key, 0, &values);
        let elements = self.elements(alike.elements, Case::Subject);
        let values = [("elements", &*elements), ("pair", &pair), ("what", &what)];
        self.say("as-one", alike.elements.len(), &values)
    }

    /// Whether the train has but one set, which then needs no name.
    pub(crate) fn is_alone(&self) -> bool {
        self.train.scenario().couplings.len() == 1
    }

    pub(crate) fn work(&self, work: &SetWork) -> String {
        let reaction = self.reaction(work);
        let is_pair = work.reaction.is_some() && reaction.is_none();
        let motion = ("motion", &*self.motion(work, is_pair));
        let what = match &reaction {
            None => self.say("by-itself", 0, &[motion]),
            Some(reaction) => self.say("because", 0, &[("reaction", reaction), motion]),
        };
        if self.is_alone() {
            return what;
        }
        let set = self.set(work.coupling, Case::Subject);
        let label = self.train.scenario().couplings[work.coupling]
            .facts()
            .label();
        let values = [
            ("set", &*set),
            ("label", label),
            ("what", &what),
            ("begun", &begun(what.clone())),
        ];
        self.say("in-set", 0, &values)
    }

    /// Who takes the reaction; that the frame of a pair does goes without saying.
    fn reaction(&self, work: &SetWork) -> Option<String> {
        let reaction = work.reaction?;
        let role = self.role(work.coupling, reaction.member);
        Some(match reaction.hold {
            _ if role == Role::Frame => return None,
            Hold::Fixed => {
                let values = [("member", role.word()), ("role", role.key())];
                self.say("reaction-fixed", 0, &values)
            }
            Hold::Sets => {
                let member = self.member(role, Case::Subject);
                self.say("reaction-rest", 0, &[("member", &member)])
            }
            Hold::Elements(set) => {
                let values = [
                    ("member", &*self.member(role, Case::Object)),
                    ("elements", &self.elements(set, Case::Subject)),
                ];
                self.say("reaction-elements", set.len(), &values)
            }
        })
    }

    fn motion(&self, work: &SetWork, is_pair: bool) -> String {
        let named = |member: usize, case| self.member(self.role(work.coupling, member), case);
        let all = |members: &[usize], case| {
            let mut names = Vec::new();
            for &member in members {
                names.push(named(member, case));
            }
            listed(&names)
        };
        let [driving, driven] = [
            all(&work.driving, Case::Subject),
            all(&work.driven, Case::Object),
        ];
        let mut past = String::new();
        let place = match work.motion {
            Motion::Turns(pace, same_way) => {
                let key = match (is_pair, same_way) {
                    (true, _) => "pair-turns",
                    (_, true) => "turns-same",
                    (_, false) => "turns-opposite",
                };
                let values = [
                    ("driving", &*driving),
                    ("driven", &driven),
                    pace_of(pace),
                    way_of(same_way),
                ];
                return self.say(key, 0, &values);
            }
            Motion::Divides => "",
            Motion::Adds(Place::Between) => "between",
            Motion::Adds(Place::Overruns) => "overruns",
            Motion::Adds(Place::Slower) => "slower",
            Motion::Adds(Place::Against) => "against",
            Motion::Adds(Place::Beyond(member)) => {
                past = named(member, Case::Subject);
                "beyond"
            }
        };
        let key = if place.is_empty() { "divides" } else { "adds" };
        let values = [
            ("driving", &*driving),
            ("driven", &driven),
            ("place", place),
            ("past", &past),
        ];
        self.say(key, work.driving.len(), &values)
    }

    fn spare(&mut self, spare: &Spare) {
        if !spare.idle.is_empty() {
            let elements = self.elements(spare.idle, Case::Subject);
            self.add(self.say("idle", spare.idle.len(), &[("elements", &elements)]));
        }
        for only in &spare.only_for {
            let values = [
                ("element", &*self.element(only.element, Case::Subject)),
                ("what", if only.braking { "braking" } else { "coasting" }),
                ("instead", &self.elements(only.instead, Case::Subject)),
            ];
            self.add(self.say("only-for", only.instead.len(), &values));
        }
        for &(element, lets_go) in &spare.keeps_locked {
            let values = [
                ("element", &*self.element(element, Case::Object)),
                ("lets-go", &self.elements(lets_go, Case::Subject)),
            ];
            self.add(self.say("keeps-locked", lets_go.len(), &values));
        }
        if !spare.side_by_side.is_empty() {
            let elements = self.elements(spare.side_by_side, Case::Subject);
            self.add(self.say("side-by-side", 0, &[("elements", &elements)]));
        }
    }

    pub(crate) fn neutral(&self, neutral: &Neutral) -> String {
        if self.train.scenario().is_branched() {
            return self.plain("branched");
        }
        let mut reasons = Vec::new();
        if let Some(input) = neutral.input {
            let key = if input.alone {
                "input-alone"
            } else {
                "input-geared"
            };
            reasons.push(self.unconnected(key, input));
        }
        if let Some(output) = neutral.output {
            reasons.push(self.unconnected("output-alone", output));
        }
        if neutral.reaction {
            reasons.push(self.plain("no-reaction"));
        }
        let why = self.say("neutral", 0, &[("reasons", &parted(&reasons))]);
        self.and_also(why, &begun(self.missing(neutral.missing)))
    }

    /// One more sentence beside another, if there is one.
    fn and_also(&self, mut text: String, more: &str) -> String {
        if !text.is_empty() && !more.is_empty() {
            text.push(' ');
        }
        text.push_str(more);
        text
    }

    fn unconnected(&self, key: &str, end: Unconnected) -> String {
        if end.open.is_empty() {
            return self.plain(key);
        }
        let open = self.elements(end.open, Case::Subject);
        let values = [("what", self.words.plain(key)), ("open", &open)];
        self.say("for-open", end.open.len(), &values)
    }

    fn missing(&self, missing: Missing) -> String {
        let key = match missing {
            Missing::OneOf(elements) if elements.len() <= MOST_NAMED => {
                let names = one_of(&self.names(elements, Case::Subject));
                return self.say("would-drive", 0, &[("elements", &names)]);
            }
            Missing::Several(count) => return self.say("several-would-drive", count, &[]),
            Missing::OneOf(_) => "one-would-drive",
            Missing::Nothing if self.train.scenario().elements.is_empty() => "no-element",
            Missing::Nothing => "none-would-drive",
            Missing::Unknown => return String::new(),
        };
        self.plain(key)
    }

    pub(crate) fn output_held(&self, fight: &Fight) -> String {
        let elements = self.elements(fight.elements, Case::Subject);
        let sets = |case| self.sets(&fight.couplings, case);
        let (count, holders) = if fight.elements.is_empty() {
            (fight.couplings.len(), sets(Case::Subject))
        } else if fight.couplings.is_empty() {
            (fight.elements.len(), elements)
        } else {
            let values = [("elements", &*elements), ("sets", &sets(Case::Dative))];
            (fight.elements.len(), self.say("held-with", 0, &values))
        };
        self.say("held", count, &[("holders", &holders)])
    }

    pub(crate) fn tied_up(&self, tie_up: &TieUp) -> String {
        let fight = &tie_up.fight;
        let sets = self.sets(&fight.couplings, Case::Object);
        if fight.elements.is_empty() {
            return self.say("tied-by-sets", 0, &[("sets", &sets)]);
        }
        let alone = fight.elements.len() == 1;
        let key = if alone { "holds-alone" } else { "fight" };
        let mut what = self.say(
            key,
            0,
            &[("elements", &self.elements(fight.elements, Case::Subject))],
        );
        if !fight.couplings.is_empty() {
            what = self.say("through", 0, &[("what", &what), ("sets", &sets)]);
        }
        if !alone {
            what = self.say("so-tied", 0, &[("what", &what)]);
        }
        let mut text = self.say("tied-by", 0, &[("what", &what)]);
        if let Some(would) = &tie_up.would {
            text = self.and_also(text, &self.would(would));
        }
        self.and_also(text, &self.way_out(tie_up))
    }

    fn would(&self, Would { element, slip }: &Would) -> String {
        let [first, second] = self.train.ends(*element);
        let key = if second == Body::Housing {
            "would-turn"
        } else {
            "would-slip"
        };
        let values = [
            ("element", &*self.element(*element, Case::Object)),
            ("first", &self.body(first, Case::Subject)),
            ("second", &self.body(second, Case::Subject)),
            ("speed", &number(slip.abs().to_f64(), 3)),
            way_of(slip.signum() > 0),
            pace_of(Pace::of(slip, &Fraction::ONE)),
        ];
        self.say(key, 0, &values)
    }

    fn way_out(&self, tie_up: &TieUp) -> String {
        let all = tie_up.fight.elements;
        if tie_up.freeing.is_empty() {
            self.plain("fights-all")
        } else if tie_up.freeing != all {
            let others = one_of(&self.names(all.minus(tie_up.freeing), Case::Object));
            let freeing = one_of(&self.names(tie_up.freeing, Case::Object));
            self.say(
                "fights-some",
                0,
                &[("freeing", &freeing), ("others", &others)],
            )
        } else if all.len() > 1 {
            self.plain("fights-one")
        } else {
            String::new()
        }
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
