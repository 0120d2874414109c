//! A shift in sentences.

use levertrain_exact::Fraction;

use super::shift::{Change, Shift, Swap};
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
    for change in TOLD {
        told.extend(writer.change(change));
    }
    told.extend(writer.input());
    if shift.swap() != Swap::Nothing {
        told.extend(writer.late("come", &shift.neither, shift.applied, shift.kept));
        let all = shift.kept.union(shift.released).union(shift.applied);
        told.extend(writer.late("go", &shift.both, shift.released, all));
    }
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
        let steps = [
            self.elements("shift-released", shift.released),
            self.elements("shift-applied", shift.applied),
            self.elements("shift-lets-go", shift.lets_go),
            self.elements("shift-locks", shift.locks),
            self.elements("shift-kept", shift.kept),
            Some((
                said("shift-swap", &[("swap", swap)]),
                ElementSet::NONE,
                Vec::new(),
            )),
        ];
        steps.into_iter().flatten().collect()
    }

    /// The shafts to which this happens.
    fn change(&self, change: Change) -> Option<Told> {
        let shafts = self.shift.shafts.iter().enumerate();
        let shafts = shafts.filter(|(_, shaft)| shaft.change == change);
        let (mut names, mut about) = (Vec::new(), Vec::new());
        for (index, shaft) in shafts {
            let name = self.teller.speaker.body(Body::Shaft(index), Case::Subject);
            let [before, after] = [&shaft.before, &shaft.after]
                .map(|speed| speed.as_ref().map(figure).unwrap_or_default());
            let values = [
                ("shaft", &*name),
                ("change", change.key()),
                ("before", &before),
                ("after", &after),
            ];
            names.push(said("shift-speed", &values));
            about.push(index);
        }
        if about.is_empty() {
            return None;
        }
        let values = [("change", change.key()), ("shafts", &parted(&names))];
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
            _ if factor.signum() < 0 => return None,
            std::cmp::Ordering::Less => "slower",
            std::cmp::Ordering::Equal => "alike",
            std::cmp::Ordering::Greater => "faster",
        };
        let train = self.teller.speaker.train;
        let values = [("pace", pace), ("times", &*figure(&factor))];
        let sentence = said("shift-input", &values);
        Some((sentence, ElementSet::NONE, vec![train.input()]))
    }

    /// What there is in between where something is late.
    fn late(
        &self,
        late: &str,
        between: &Settled<'_>,
        elements: ElementSet,
        holds: ElementSet,
    ) -> Option<Told> {
        if elements.is_empty() {
            return None;
        }
        let combination = &between.combination;
        let branched = self.teller.speaker.train.scenario().is_branched();
        let state = match between.verdict {
            Verdict::Settled if branched && *combination.state() == State::Neutral => "branched",
            Verdict::Settled => combination.state().key(),
            _ => "unsettled",
        };
        let held = match holds.len() {
            0 => "none",
            1 => "one",
            _ => "some",
        };
        let speaker = &self.teller.speaker;
        let ratio = combination.state().ratio();
        let beside =
            |other: &Settled<'_>| ratio.is_some() && other.combination.state().ratio() == ratio;
        let like = if beside(&self.shift.before) {
            "before"
        } else if beside(&self.shift.after) {
            "after"
        } else {
            "neither"
        };
        let values = [
            ("late", late),
            ("elements", &*speaker.elements(elements, Case::Subject)),
            ("holds", &speaker.elements(holds, Case::Subject)),
            ("held", held),
            ("state", state),
            ("like", like),
            ("ratio", &ratio.map(figure).unwrap_or_default()),
        ];
        let sentence = speaker.say("shift-late", elements.len(), &values);
        Some((sentence, elements, Vec::new()))
    }
}
