//! What can be broken in a train.

use crate::model::coupling::{Member, Role};
use crate::train::{Body, Train};

/// One thing that is broken. Elements, couplings and members are told by their index.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// A clutch or brake that stays open.
    WillNotApply(usize),
    /// A clutch or brake that stays closed.
    WillNotRelease(usize),
    /// A clutch or brake that carries some torque when it is applied, but does not hold.
    Slips(usize),
    /// A one-way clutch that overruns both ways.
    DoesNotHold(usize),
    /// A one-way clutch that is locked both ways.
    StaysLocked(usize),
    /// A member of a coupling that is cut off its shaft.
    BrokenSpline(usize, usize),
}

impl Fault {
    /// All that a train can have: those of its elements, one after the other, then its splines.
    ///
    /// A member that stands alone on its shaft is splined to nothing, and the frame of a pair is no
    /// member that turns: they have none.
    pub fn all(train: &Train) -> Vec<Self> {
        let scenario = train.scenario();
        let mut faults = Vec::new();
        for (index, element) in scenario.elements.iter().enumerate() {
            if element.is_one_way() {
                faults.extend([Self::DoesNotHold(index), Self::StaysLocked(index)]);
            } else {
                faults.extend([
                    Self::WillNotApply(index),
                    Self::WillNotRelease(index),
                    Self::Slips(index),
                ]);
            }
        }
        for (index, coupling) in scenario.couplings.iter().enumerate() {
            let members = coupling.facts().members().into_iter().enumerate();
            let splined = members.filter(|(at, member)| is_splined(train, index, *at, member));
            faults.extend(splined.map(|(at, _)| Self::BrokenSpline(index, at)));
        }
        faults
    }

    /// The element that is broken, if it is one.
    pub fn element(self) -> Option<usize> {
        match self {
            Self::WillNotApply(element)
            | Self::WillNotRelease(element)
            | Self::Slips(element)
            | Self::DoesNotHold(element)
            | Self::StaysLocked(element) => Some(element),
            Self::BrokenSpline(..) => None,
        }
    }

    /// Whether both can be at once: an element has one fault at most.
    pub fn goes_with(self, other: Self) -> bool {
        self != other && (self.element().is_none() || self.element() != other.element())
    }

    /// The fault as one word, for programs that read it.
    pub fn key(self) -> &'static str {
        match self {
            Self::WillNotApply(_) => "will-not-apply",
            Self::WillNotRelease(_) => "will-not-release",
            Self::Slips(_) => "slips",
            Self::DoesNotHold(_) => "does-not-hold",
            Self::StaysLocked(_) => "stays-locked",
            Self::BrokenSpline(..) => "broken-spline",
        }
    }
}

/// Whether anything else is on the shaft of a member.
fn is_splined(train: &Train, coupling: usize, at: usize, member: &Member<'_>) -> bool {
    if member.role == Role::Frame {
        return false;
    }
    let body = train.members(coupling)[at];
    let scenario = train.scenario();
    let mut bodies = (0..scenario.couplings.len()).flat_map(|index| train.members(index));
    let mut ends = (0..scenario.elements.len()).flat_map(|index| train.ends(index));
    body == Body::Housing
        || [train.input(), train.output()]
            .map(Body::Shaft)
            .contains(&body)
        || ends.any(|end| end == body)
        || bodies.by_ref().filter(|other| **other == body).count() > 1
}
