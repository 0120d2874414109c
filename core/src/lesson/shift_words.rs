//! A shift in sentences.

use levertrain_exact::Fraction;

use super::shift::{Change, Late, Shift, Swap};
use super::walk_words::{Teller, figure};
use crate::base::element_set::ElementSet;
use crate::base::said::said;
use crate::solve::State;
use crate::solve::settle::{Settled, Verdict};
use crate::train::Body;
use crate::words::{Case, begun, parted};

/// The changes that are told, in order.
const TOLD: [Change; 7] = [
    Change::TurnsRound,
    Change::Stops,
    Change::Starts,
    Change::Slower,
    Change::Faster,
    Change::BecomesFree,
    Change::BecomesDecided,
];

impl Change {
    /// The change as messages choose by it.
    pub fn key(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Faster => "faster",
            Self::Slower => "slower",
            Self::TurnsRound => "turns-round",
            Self::Stops => "stops",
            Self::Starts => "starts",
            Self::BecomesFree => "freed",
            Self::BecomesDecided => "decided",
            Self::Free => "free",
        }
    }
}

/// What is said, each with the elements and shafts that it is about.
pub(super) type Told = (String, ElementSet, Vec<usize>);

pub(super) fn tell(shift: &Shift<'_>) -> Vec<Told> {
    let teller = Teller::of(&shift.before.combination);
    let writer = Writer { shift, teller };
    let mut told = writer.swap();
    let swapped = told.len();
    for change in TOLD {
        told.extend(writer.change(change, told.len() == swapped));
    }
    told.extend(writer.input());
    told.extend(writer.coast());
    told.extend(shift.lates.iter().map(|late| writer.late(late)));
    let begin = |(sentence, elements, shafts)| (begun(sentence), elements, shafts);
    told.into_iter().map(begin).collect()
}

struct Writer<'a, 'b> {
    shift: &'b Shift<'a>,
    teller: Teller<'b>,
}

impl Writer<'_, '_> {
    fn elements(&self, key: &str, elements: ElementSet) -> Option<Told> {
        if elements.is_empty() {
            return None;
        }
        let names = self.teller.speaker.elements(elements, Case::Subject);
        let values = [("elements", &*names)];
        let sentence = self.teller.speaker.say(key, elements.len(), &values);
        Some((sentence, elements, Vec::new()))
    }

    fn swap(&self) -> Vec<Told> {
        let shift = self.shift;
        let swap = match shift.swap() {
            Swap::Nothing => "nothing",
            Swap::Releases => "releases",
            Swap::Applies => "applies",
            Swap::Single => "single",
            Swap::Several => "several",
        };
        let slips = |element: &usize| {
            let slip = shift.after.combination.slip(*element);
            slip.is_some_and(|slip| !slip.is_zero())
        };
        let overruns: ElementSet = shift.lets_go.iter().filter(slips).collect();
        // What a one-way clutch does by itself need not be timed.
        let helped = match shift.swap() {
            Swap::Applies => !overruns.is_empty(),
            Swap::Releases => !shift.locks.is_empty(),
            _ => false,
        };
        let values = [
            ("swap", swap),
            ("one-way", if helped { "helps" } else { "none" }),
        ];
        let count = shift.released.len().max(shift.applied.len());
        let sentence = self.teller.speaker.say("shift-swap", count, &values);
        let steps = [
            self.elements("shift-released", shift.released),
            self.elements("shift-applied", shift.applied),
            Some((sentence, ElementSet::NONE, Vec::new())),
            self.elements("shift-lets-go", overruns),
            self.elements("shift-unloaded", shift.lets_go.minus(overruns)),
            self.elements("shift-locks", shift.locks),
            self.elements("shift-kept", shift.kept),
        ];
        steps.into_iter().flatten().collect()
    }

    /// The shafts to which this happens; the first of such sentences says at which speed of the input.
    fn change(&self, change: Change, first: bool) -> Option<Told> {
        let shafts = self.shift.shafts.iter().enumerate();
        let shafts = shafts.filter(|(_, shaft)| shaft.change == change);
        let (mut names, mut about) = (Vec::new(), Vec::new());
        for (index, shaft) in shafts {
            let name = self.teller.speaker.body(Body::Shaft(index), Case::Subject);
            let [before, after] = [&shaft.before, &shaft.after]
                .map(|speed| speed.as_ref().map(figure).unwrap_or_default());
            let known = shaft.before.as_ref().or(shaft.after.as_ref());
            let still = known.is_some_and(Fraction::is_zero);
            let values = [
                ("shaft", &*name),
                ("change", change.key()),
                ("still", if still { "true" } else { "false" }),
                ("before", &before),
                ("after", &after),
            ];
            names.push(said("shift-speed", &values));
            about.push(index);
        }
        if about.is_empty() {
            return None;
        }
        let values = [
            ("change", change.key()),
            ("place", if first { "first" } else { "next" }),
            ("shafts", &parted(&names)),
        ];
        let sentence = self
            .teller
            .speaker
            .say("shift-change", about.len(), &values);
        Some((sentence, ElementSet::NONE, about))
    }

    /// What the input does when the output is kept at its speed.
    fn input(&self) -> Option<Told> {
        let factor = self.shift.input_factor()?;
        let pace = match factor.cmp(&Fraction::ONE) {
            _ if factor.signum() < 0 => "against",
            std::cmp::Ordering::Less => "slower",
            std::cmp::Ordering::Equal => "alike",
            std::cmp::Ordering::Greater => "faster",
        };
        let train = self.teller.speaker.train;
        let values = [("pace", pace), ("times", &*figure(&factor))];
        let sentence = said("shift-input", &values);
        Some((sentence, ElementSet::NONE, vec![train.input()]))
    }

    /// Whether engine braking comes or goes.
    fn coast(&self) -> Option<Told> {
        // Of what does not drive there is nothing to tell.
        self.shift.input_factor()?;
        let braking = match self.shift.brakes {
            [false, true] => "comes",
            [true, false] => "goes",
            _ => return None,
        };
        let sentence = said("shift-coast", &[("braking", braking)]);
        Some((sentence, ElementSet::NONE, Vec::new()))
    }

    /// What there is in between where something is late.
    fn late(&self, late: &Late<'_>) -> Told {
        let shift = self.shift;
        let speaker = &self.teller.speaker;
        let combination = &late.between.combination;
        let state = match (&late.between.verdict, combination.state()) {
            (Verdict::Settled, State::Neutral) if speaker.train.scenario().is_branched() => {
                "branched"
            }
            (Verdict::Settled, State::TiedUp)
                if combination.shaft_speed(speaker.train.output()).is_none() =>
            {
                "input-held"
            }
            (Verdict::Settled, state) => state.key(),
            _ => "unsettled",
        };
        let held = match late.holds.len() {
            0 => "none",
            1 => "one",
            _ => "some",
        };
        let all = if late.to_go {
            shift.released
        } else {
            shift.applied
        };
        let ratio = combination.state().ratio();
        let beside =
            |other: &Settled<'_>| ratio.is_some() && other.combination.state().ratio() == ratio;
        let like = if beside(&shift.before) {
            "before"
        } else if beside(&shift.after) {
            "after"
        } else {
            "neither"
        };
        let key = match late.elements == all {
            true => "shift-late",
            false => "shift-late-alone",
        };
        let values = [
            ("late", if late.to_go { "go" } else { "come" }),
            ("elements", &*speaker.elements(late.elements, Case::Subject)),
            ("holds", &speaker.elements(late.holds, Case::Subject)),
            ("held", held),
            ("state", state),
            ("like", like),
            ("ratio", &ratio.map(figure).unwrap_or_default()),
        ];
        let sentence = speaker.say(key, late.elements.len(), &values);
        (sentence, late.elements, Vec::new())
    }
}
