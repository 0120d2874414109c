//! A walk in sentences.

use levertrain_exact::Fraction;

use super::walk::{Claim, Output, Step, Walk};
use super::walk_kept::Kept;
use super::walk_stage::{Part, SetStage, Stage, What};
use super::walk_tie::Tie;
use crate::base::element_set::ElementSet;
use crate::base::number::number;
use crate::base::said::said;
use crate::model::coupling::Role;
use crate::solve::Combination;
use crate::train::Body;
use crate::words::{Case, Catalogue, MemberAt, Speaker, begun, listed, parted};

/// Significant figures.
const DIGITS: u32 = 4;
/// The same of shares in per cent.
const SHARE_DIGITS: u32 = 3;

/// A number of turns, or a ratio, as a person reads it.
pub(super) fn figure(value: &Fraction) -> String {
    if value.denominator() == 1.into() {
        return exact(value);
    }
    let value = value.to_f64();
    // What is slow has as many figures as what is fast: a learner divides one by the other.
    let zeros = [0.1, 0.01].into_iter().filter(|most| value.abs() < *most);
    number(value, DIGITS + zeros.count() as u32)
}

/// The sign of a value as messages choose by it.
pub(super) fn way(value: &Fraction) -> (&'static str, &'static str) {
    let way = match value.signum() {
        1.. => "forward",
        0 => "still",
        _ => "backward",
    };
    ("way", way)
}

/// Writes about one combination.
pub(super) struct Teller<'a> {
    pub(super) speaker: Speaker<'a>,
    combination: &'a Combination<'a>,
}

impl<'a> Teller<'a> {
    pub(super) fn of(combination: &'a Combination<'a>) -> Self {
        Self {
            speaker: Speaker {
                words: Catalogue::spoken(),
                train: combination.train(),
                sentences: Vec::new(),
            },
            combination,
        }
    }

    /// The sentences of each step of a walk.
    pub(super) fn all(&self, walk: &Walk<'_>) -> Vec<Vec<String>> {
        let sentences = walk.steps.iter().map(|step| self.step(step));
        sentences
            .map(|sentences| sentences.into_iter().map(begun).collect())
            .collect()
    }

    fn step(&self, step: &Step) -> Vec<String> {
        let speaker = &self.speaker;
        match &step.claim {
            Claim::Input => vec![said(
                "walk-input",
                &[("members", &self.members_of(&step.members))],
            )],
            Claim::NoneApplied => vec![speaker.plain("none-applied")],
            Claim::Applied(element, does) => vec![speaker.applied(&[(*element, *does)])],
            Claim::Alone => {
                let output = speaker.body(Body::Shaft(speaker.train.output()), Case::Subject);
                vec![said("walk-alone", &[("output", &output)])]
            }
            Claim::Joined => vec![speaker.plain("joined")],
            Claim::Stage(stage) => self.stage(stage),
            Claim::Idle(sets) => {
                let names = speaker.sets(sets, Case::Subject);
                vec![speaker.say("walk-idle", sets.len(), &[("sets", &names)])]
            }
            Claim::GoesRound(times, members) => vec![self.goes_round(times, members)],
            Claim::Output(output) => self.output(output),
            Claim::Neutral(neutral) => vec![speaker.neutral(neutral)],
            Claim::Tie(tie) => vec![self.tie(tie)],
            Claim::Kept(kept) => vec![self.kept(kept)],
            Claim::OutputHeld(fight) => vec![speaker.output_held(fight)],
            Claim::TiedUp(tie_up) => vec![speaker.tied_up(tie_up)],
        }
    }

    fn stage(&self, stage: &Stage) -> Vec<String> {
        let mut sentences = Vec::new();
        if stage.sets.len() > 1 {
            let sets: Vec<usize> = stage.sets.iter().map(|set| set.coupling).collect();
            let sets = self.speaker.sets(&sets, Case::Subject);
            let count = stage.sets.len();
            sentences.push(self.speaker.say("walk-together", count, &[("sets", &sets)]));
        }
        if let Some(as_one) = &stage.as_one {
            sentences.push(self.speaker.as_one(as_one));
            return sentences;
        }
        for set in &stage.sets {
            if stage.sets.len() == 1 {
                sentences.push(self.decided(set));
            }
            self.set(set, &mut sentences);
        }
        sentences
    }

    fn set(&self, set: &SetStage, sentences: &mut Vec<String>) {
        let speaker = &self.speaker;
        match &set.what {
            What::AsOne(as_one) => {
                // Of one set of several it is told; the train as a whole comes at its end.
                let mut as_one = as_one.clone();
                as_one.whole &= speaker.is_alone();
                sentences.push(speaker.as_one(&as_one));
            }
            What::Works(work) => sentences.push(speaker.work(work)),
            What::Strut => {
                let name = speaker.set(set.coupling, Case::Subject);
                let still = self
                    .alike(set.coupling)
                    .is_some_and(|speed| speed.is_zero());
                let key = if still { "walk-still" } else { "strut" };
                sentences.push(speaker.say(key, 0, &[("set", &name)]));
            }
            What::Idle => {
                let name = speaker.set(set.coupling, Case::Subject);
                sentences.push(speaker.say("walk-idle", 1, &[("sets", &name)]));
            }
            What::Unknown => {
                let name = speaker.set(set.coupling, Case::Dative);
                sentences.push(said("walk-undetermined", &[("set", &name)]));
            }
        }
        if let Some(member) = set.reaction {
            let at = (set.coupling, member);
            let alike = self.speed_of(at) == Some(Fraction::ONE);
            let values = [
                ("member", &*self.member(at, Case::Subject)),
                ("speed", &self.speed(at).unwrap_or_default()),
                ("alike", if alike { "yes" } else { "no" }),
            ];
            sentences.push(said("walk-reaction", &values));
        }
        for (shares, way) in [(&set.shares_in, "enters"), (&set.shares_out, "leaves")] {
            // Of what turns as one piece, how torque is shared is no part of why it turns so.
            if !shares.is_empty() && !matches!(set.what, What::AsOne(_)) {
                sentences.push(self.shares(set, shares, way));
            }
        }
        self.ratio(set, sentences);
    }

    fn ratio(&self, set: &SetStage, sentences: &mut Vec<String>) {
        let Some(ratio) = &set.ratio else { return };
        let [from, to] = [ratio.from, ratio.to].map(|member| self.speed((set.coupling, member)));
        let (Some(from), Some(to)) = (from, to) else {
            return;
        };
        let alike = ratio.ratio.abs() == Fraction::ONE;
        let values = [
            ("ratio", &*figure(&ratio.ratio)),
            ("from", &from),
            ("to", &to),
            ("torque", if alike { "same" } else { "other" }),
            ("times", &figure(&ratio.ratio.abs())),
        ];
        sentences.push(said("walk-ratio", &values));
    }

    /// What was known of a set, and what that decides.
    fn decided(&self, set: &SetStage) -> String {
        let is_frame = |member: usize| self.role(set.coupling, member) == Role::Frame;
        let named = |known: bool, case| {
            let members = (0..set.known.len())
                .filter(|&member| set.known[member] == known && !is_frame(member));
            let names: Vec<String> = members
                .map(|member| self.speaker.member(self.role(set.coupling, member), case))
                .collect();
            (names.len(), listed(&names))
        };
        let (before, known) = named(true, Case::Subject);
        let (count, decided) = named(false, Case::Subject);
        let before = match before {
            0 => "none",
            1 => "one",
            _ => "some",
        };
        let values = [
            ("set", &*self.speaker.set(set.coupling, Case::Subject)),
            ("known", &known),
            ("decided", &decided),
            ("before", before),
        ];
        self.speaker.say("walk-decided", count, &values)
    }

    fn shares(&self, set: &SetStage, shares: &[(usize, Fraction)], way: &str) -> String {
        let shares: Vec<String> = shares
            .iter()
            .map(|(member, share)| {
                let percent = &Fraction::from(100) * share;
                let name = self
                    .speaker
                    .member(self.role(set.coupling, *member), Case::Subject);
                let percent = number(percent.to_f64(), SHARE_DIGITS);
                said("walk-share", &[("member", &*name), ("percent", &percent)])
            })
            .collect();
        let set = self.speaker.set(set.coupling, Case::Object);
        let values = [("flow", way), ("set", &*set), ("shares", &parted(&shares))];
        said("walk-shares", &values)
    }

    fn goes_round(&self, times: &Fraction, members: &[MemberAt]) -> String {
        let rolls = members.iter().any(|&(set, _)| self.alike(set).is_none());
        let values = [
            ("times", &*figure(times)),
            ("members", &self.members_of(members)),
            ("rolls", if rolls { "yes" } else { "no" }),
        ];
        self.speaker.say("walk-goes-round", members.len(), &values)
    }

    fn output(&self, output: &Output) -> Vec<String> {
        let speaker = &self.speaker;
        let name = speaker.body(Body::Shaft(speaker.train.output()), Case::Subject);
        let speed = output.ratio.recip().unwrap_or(Fraction::ZERO);
        let torque = output.ratio.abs();
        let values = [
            ("output", &*name),
            way(&speed),
            ("speed", &figure(&speed.abs())),
            (
                "torque",
                if torque == Fraction::ONE {
                    "same"
                } else {
                    "other"
                },
            ),
            ("times", &figure(&torque)),
            ("ratio", &figure(&output.ratio)),
        ];
        let mut sentences = vec![said("walk-output", &values)];
        if output.factors.len() > 1 {
            let factors: Vec<String> = output.factors.iter().map(factor).collect();
            let product = factors.join(" × ");
            let values = [("product", &*product), ("ratio", &exact(&output.ratio))];
            sentences.push(said("walk-product", &values));
        }
        if output.ratio.signum() < 0 && !output.turns_round.is_empty() {
            let sets = speaker.sets(&output.turns_round, Case::Dative);
            sentences.push(said("walk-turns-round", &[("sets", &sets)]));
        }
        sentences
    }

    fn tie(&self, tie: &Tie) -> String {
        let word = |member: usize| self.role(tie.set, member).word();
        let shares = tie.of.iter().map(|(member, share)| {
            let values = [("times", &*figure(share)), ("member", word(*member))];
            said("walk-tie-share", &values)
        });
        let values = [
            ("set", &*self.speaker.set(tie.set, Case::Subject)),
            ("member", word(tie.member)),
            ("sum", &shares.collect::<Vec<_>>().join(" + ")),
        ];
        let sentence = said("walk-tie", &values);
        let Some(still) = tie.still else {
            return sentence;
        };
        let still = begun(self.member((tie.set, still), Case::Subject));
        sentence + " " + &said("walk-tie-still", &[("member", &still)])
    }

    fn kept(&self, kept: &Kept) -> String {
        let speaker = &self.speaker;
        let range = &speaker.train.scenario().ranges[kept.range].label;
        let own = |set: ElementSet| speaker.elements(set, Case::Subject);
        let values = [
            ("elements", &*own(kept.elements)),
            ("range", range),
            ("rest", &own(kept.rest)),
        ];
        speaker.say("walk-kept", kept.elements.len(), &values)
    }

    fn role(&self, coupling: usize, member: usize) -> Role {
        self.speaker.role(coupling, member)
    }

    fn member(&self, (coupling, member): MemberAt, case: Case) -> String {
        self.speaker.member(self.role(coupling, member), case)
    }

    /// A member with its set, where there are others.
    fn member_of(&self, at: MemberAt) -> String {
        if self.speaker.is_alone() {
            return self.member(at, Case::Subject);
        }
        let values = [
            ("member", &*self.member(at, Case::Subject)),
            ("set", &self.speaker.set(at.0, Case::Dative)),
        ];
        said("walk-member-of", &values)
    }

    fn members_of(&self, members: &[MemberAt]) -> String {
        let names: Vec<String> = members.iter().map(|&at| self.member_of(at)).collect();
        listed(&names)
    }

    fn speed_of(&self, (coupling, member): MemberAt) -> Option<Fraction> {
        let body = self.speaker.train.members(coupling)[member];
        self.combination.body_speed(body)
    }

    fn speed(&self, at: MemberAt) -> Option<String> {
        self.speed_of(at).as_ref().map(figure)
    }

    /// The speed that all members of a set have, if they do, so that no gear rolls.
    fn alike(&self, set: usize) -> Option<Fraction> {
        let mut speeds =
            (0..self.speaker.train.members(set).len()).map(|member| self.speed_of((set, member)));
        let first = speeds.next().flatten()?;
        speeds
            .all(|speed| speed.as_ref() == Some(&first))
            .then_some(first)
    }
}

/// A fraction with a true minus sign.
fn exact(value: &Fraction) -> String {
    value.to_string().replace('-', "\u{2212}")
}

/// The same in a product.
fn factor(value: &Fraction) -> String {
    match value.signum() {
        -1 => format!("({})", exact(value)),
        _ => exact(value),
    }
}

impl Part {
    /// The part as a message that names it, and for programs.
    pub fn key(self) -> &'static str {
        match self {
            Self::Drives => "walk-part-drives",
            Self::Delivers => "walk-part-delivers",
            Self::Held => "walk-part-held",
            Self::Idle => "walk-part-idle",
            Self::Unknown => "walk-part-unknown",
        }
    }
}
