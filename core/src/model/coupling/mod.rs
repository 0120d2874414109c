//! Couplings: gear sets and gear pairs, one kind a file.
//!
//! A kind states its facts once, through [`CouplingKind`]: which members it has, which
//! integer equations their speeds obey, how its pinions turn, what its teeth must satisfy and
//! what its gears look like. The solver, the checks and every drawing read only that. To add
//! a kind, write its file and name it in the `kinds!` list below.

mod double_pinion;
mod gear;
mod gear_name;
mod gear_pair;
mod planetary;
mod profile;
mod ravigneaux;
mod stepped;
mod stepped_suns;

use serde::Serialize;

pub use double_pinion::DoublePinion;
pub use gear::{Gear, PinionCount, PinionRow, Pinions, SetTeeth, Teeth};
pub use gear_name::{GearName, PinionName};
pub use gear_pair::{GearPair, Mesh};
pub use planetary::Planetary;
pub use profile::{Mount, Partner, Plane, Profile, ProfileGear};
pub use ravigneaux::Ravigneaux;
pub use stepped::Stepped;
pub use stepped_suns::SteppedSuns;

use crate::base::problem::Problem;
use crate::base::said::word;
use crate::json::{Read, Value, tagged};
use crate::model::tooth_checks::ToothWarning;

/// What a member is called in the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// The central external gear of a set.
    Sun,
    /// Of two suns, the one that the short pinions mesh with.
    SmallSun,
    /// Of two suns, the one that the long pinions mesh with.
    LargeSun,
    /// Of two suns on stepped pinions, the one named first.
    FirstSun,
    /// The other one.
    SecondSun,
    /// The internal gear of a set.
    Ring,
    /// The member that carries the pinions.
    Carrier,
    /// The first gear of a pair.
    First,
    /// The second gear of a pair.
    Second,
    /// The housing, as the frame of a pair of gears on fixed axes.
    Frame,
}

impl Role {
    /// The word for it.
    pub fn word(self) -> &'static str {
        word(self.key())
    }

    /// The message of that, which others choose by where adjectives and articles change.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Sun => "role-sun",
            Self::SmallSun => "role-small-sun",
            Self::LargeSun => "role-large-sun",
            Self::FirstSun => "role-first-sun",
            Self::SecondSun => "role-second-sun",
            Self::Ring => "role-ring",
            Self::Carrier => "role-carrier",
            Self::First => "role-first-gear",
            Self::Second => "role-second-gear",
            Self::Frame => "role-frame",
        }
    }

    /// Whether it is a member of a set, rather than of a pair of gears.
    pub const fn is_of_set(self) -> bool {
        !matches!(self, Self::First | Self::Second | Self::Frame)
    }

    /// Whether it is an external gear about the axis of a set.
    pub const fn is_sun(self) -> bool {
        matches!(
            self,
            Self::Sun | Self::SmallSun | Self::LargeSun | Self::FirstSun | Self::SecondSun
        )
    }

    /// One letter, or two, for a crowded drawing; the page explains it.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Sun => "S",
            Self::SmallSun | Self::FirstSun => "Sa",
            Self::LargeSun | Self::SecondSun => "Sb",
            Self::Ring => "R",
            Self::Carrier => "C",
            Self::First => "Za",
            Self::Second => "Zb",
            Self::Frame => "H",
        }
    }
}

/// One member of a coupling.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Member<'a> {
    /// What it is.
    pub role: Role,
    /// Id of its shaft, or `housing`.
    pub shaft: &'a str,
    /// Its tooth count; a carrier has none.
    pub teeth: Option<Teeth>,
}

impl<'a> Member<'a> {
    /// A gear of a coupling.
    const fn gear(role: Role, gear: &'a Gear) -> Self {
        Self {
            role,
            shaft: gear.shaft.as_str(),
            teeth: Some(gear.teeth),
        }
    }

    /// The carrier of a coupling, on this shaft.
    const fn carrier(shaft: &'a str) -> Self {
        Self {
            role: Role::Carrier,
            shaft,
            teeth: None,
        }
    }
}

/// An integer equation between member speeds: Σ coefficientᵢ · ωᵢ = 0, in member order.
///
/// The coefficients of every coupling sum to zero, because turning as one piece is always
/// possible (the frame of a gear pair counts as a member).
pub type MeshRow = Vec<i64>;

/// A tooth count with its letter.
pub type Symbol = (&'static str, Teeth);

/// A mesh row with its tooth ratio as a variable: constant + k·slope, in member order, is a
/// multiple of the row. k is a quotient of tooth counts, or of products of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowRatio {
    /// The row at k = 0.
    pub constant: Vec<i64>,
    /// What one more of k adds.
    pub slope: Vec<i64>,
    /// The factors above the line of k.
    pub numerator: Vec<Symbol>,
    /// The factors below it.
    pub denominator: Vec<Symbol>,
}

/// A mesh row as a gear train seen from its carrier, for losses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rolling {
    /// Member at one end of the train.
    pub from: usize,
    /// Member at the other end.
    pub to: usize,
    /// The carrier, or the frame, that the train is seen from.
    pub carrier: usize,
    /// Its own meshes, from member `from` on; [`CouplingKind::shared_meshes`] follow.
    pub meshes: Vec<ToothMesh>,
}

/// Two gears in mesh.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToothMesh {
    /// The message that says which two.
    key: &'static str,
    /// The member whose teeth pass, seen from the carrier, as fast as those in this mesh.
    pub paced_by: usize,
}

impl ToothMesh {
    /// A mesh that this message names, as fast as the teeth of member `paced_by`.
    const fn new(key: &'static str, paced_by: usize) -> Self {
        Self { key, paced_by }
    }

    /// Which two.
    pub fn name(self) -> &'static str {
        word(self.key)
    }
}

/// How a pinion turns about its own pin: ω = (Σ coefficientᵢ · ωᵢ) / divisor, in member order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PinionSpin {
    /// What to call the pinion.
    pub name: PinionName,
    /// Its tooth count; of a stepped pinion, that of the step on the sun.
    pub teeth: Teeth,
    /// Tooth count of the other step of a stepped pinion.
    pub second_step: Option<Teeth>,
    /// Coefficients of the member speeds.
    pub coefficients: Vec<i64>,
    /// What their sum is divided by; never zero.
    pub divisor: i64,
}

/// What of a coupling can be changed.
pub struct Parts<'a> {
    /// Its id.
    pub id: &'a mut String,
    /// What people call it.
    pub label: &'a mut String,
    /// The id of each member's shaft, in member order; nothing for the frame of a pair.
    pub shafts: Vec<Option<&'a mut String>>,
    /// The tooth count of each gear and step, from the middle outwards.
    pub teeth: Vec<(GearName, &'a mut Teeth)>,
    /// How many pinions, or pairs of them, stand around the axis; a pair of gears has none.
    pub count: Option<&'a mut PinionCount>,
    /// Whether it is drawn turned round, where that was chosen; nothing for what looks the same then.
    pub turned: Option<&'a mut Option<bool>>,
}

/// The facts of a kind of coupling. Everything is per member, in the order of [`members`].
///
/// [`members`]: CouplingKind::members
pub trait CouplingKind {
    /// Unique id.
    fn id(&self) -> &str;
    /// What people call it.
    fn label(&self) -> &str;
    /// The kind in words.
    fn kind_words(&self) -> &'static str;
    /// Its members; the order fixes that of every coefficient list.
    fn members(&self) -> Vec<Member<'_>>;
    /// Whether it is drawn turned round, where that was chosen.
    fn turned(&self) -> Option<bool> {
        None
    }
    /// The same and all else that can be changed.
    fn parts(&mut self) -> Parts<'_>;
    /// The equations its meshes impose, one a degree of freedom removed.
    fn mesh_rows(&self) -> Vec<MeshRow>;
    /// The same equations with their tooth ratios as variables, in the same order.
    fn row_ratios(&self) -> Vec<RowRatio>;
    /// The same equations as gear trains seen from a carrier, in the same order.
    fn rolling(&self) -> Vec<Rolling>;
    /// The meshes that the rows all have in common, next to their member `to`, which is then
    /// the same; most kinds have none.
    fn shared_meshes(&self) -> Vec<ToothMesh> {
        Vec::new()
    }
    /// All its meshes: those of each row in turn, then the shared ones.
    fn meshes(&self) -> Vec<ToothMesh> {
        let own = self.rolling().into_iter().flat_map(|row| row.meshes);
        own.chain(self.shared_meshes()).collect()
    }
    /// Its pinions.
    fn pinions(&self) -> Vec<PinionSpin>;
    /// What its tooth counts do not satisfy.
    fn tooth_warnings(&self) -> Vec<ToothWarning>;
    /// Its gears and where they stand, for the drawings.
    fn profile(&self) -> Profile;
}

/// Makes the closed set of kinds from one list: the enum, reading by `kind`, and access to
/// the facts.
macro_rules! kinds {
    ($(#[$about:meta] $tag:literal => $kind:ident,)+) => {
        /// A coupling of any kind.
        #[derive(Debug, Clone, PartialEq, Eq, Serialize)]
        #[serde(tag = "kind")]
        pub enum Coupling {
            $(#[$about] #[serde(rename = $tag)] $kind($kind),)+
        }

        impl Coupling {
            pub(crate) const TAGS: &[&str] = &[$($tag),+];

            /// The facts of the coupling.
            pub fn facts(&self) -> &dyn CouplingKind {
                match self {
                    $(Self::$kind(coupling) => coupling,)+
                }
            }

            /// What of the coupling can be changed.
            pub fn parts(&mut self) -> Parts<'_> {
                match self {
                    $(Self::$kind(coupling) => coupling.parts(),)+
                }
            }

            fn of_kind(
                kind: &str,
                fields: Value,
                place: &str,
                problems: &mut Vec<Problem>,
            ) -> Option<Self> {
                $(if kind == $tag {
                    return Read::read(fields, place, problems).map(Self::$kind);
                })+
                // Only a kind of the list gets here.
                None
            }
        }
    };
}

kinds! {
    /// A planetary set with one pinion row.
    "planetary" => Planetary,
    /// A planetary set with two pinion rows in series.
    "double-pinion" => DoublePinion,
    /// A planetary set with stepped pinions.
    "stepped" => Stepped,
    /// Two suns on stepped pinions.
    "stepped-suns" => SteppedSuns,
    /// Two suns, short and long pinions, and a ring on one carrier.
    "ravigneaux" => Ravigneaux,
    /// Two gears on fixed axes.
    "gear-pair" => GearPair,
}

impl Read for Coupling {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let (kind, fields) = tagged(value, place, "coupling", Self::TAGS, problems)?;
        Self::of_kind(&kind, fields, place, problems)
    }
}
