//! Why a combination drives as it does: what turns as one, and what each set does.

use super::{Speaker, pace_of, way_of};
use crate::model::coupling::Role;
use crate::words::facts::{AsOne, Hold, Motion, Place, SetWork};
use crate::words::names::{Case, begun, listed};

impl Speaker<'_> {
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
}
