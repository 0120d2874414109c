//! Two suns and one ring on a carrier with short and long pinions.

use serde::Serialize;

use super::{
    CouplingKind, Gear, Member, MeshRow, Partner, Parts, PinionCount, PinionName, PinionRow,
    PinionSpin, Plane, Profile, ProfileGear, Role, Rolling, RowRatio, ToothMesh,
};
use crate::base::said::word;
use crate::json::read_fields;
use crate::model::tooth_checks::{self, PinTriangle, ToothWarning};

/// Small sun – short pinion – long pinion – ring, and large sun – long pinion: a Ravigneaux set.
///
/// The large sun and the ring make a set with one pinion row, the small sun and the same ring
/// one with two, all on one carrier. With Sa, Sb and R teeth on small sun, large sun and ring,
/// Willis' relation gives both rows (derived; the ratios of a published four-speed agree):
///
/// Sa·(ωa − ωc) − R·(ωr − ωc) = 0 and Sb·(ωb − ωc) + R·(ωr − ωc) = 0
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Ravigneaux {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// The sun that the short pinions mesh with.
    pub small_sun: Gear,
    /// The sun that the long pinions mesh with.
    pub large_sun: Gear,
    /// The ring.
    pub ring: Gear,
    /// Id of the carrier's shaft, or `housing`.
    pub carrier: String,
    /// The pinions between the small sun and the long pinions.
    pub short: PinionRow,
    /// The pinions that mesh with large sun, ring and short pinions.
    pub long: PinionRow,
    /// How many pairs of a short and a long pinion stand around the axis.
    pub count: PinionCount,
    /// Whether it is drawn turned round, its suns in the other order along the axis, where that was chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub turned: Option<bool>,
}

impl Ravigneaux {
    /// Where the pins stand: the short ones on the small sun, the long ones on the large sun.
    fn pins(&self) -> PinTriangle {
        let [small, large, short, long] = [
            self.small_sun.teeth,
            self.large_sun.teeth,
            self.short.teeth,
            self.long.teeth,
        ]
        .map(|teeth| f64::from(teeth.get()));
        PinTriangle {
            names: [PinionName::Short, PinionName::Long],
            radii: [(small + short) / 2.0, (large + long) / 2.0],
            teeth: [self.short.teeth, self.long.teeth],
        }
    }
}

read_fields!(Ravigneaux {
    id,
    label,
    small_sun,
    large_sun,
    ring,
    carrier,
    short,
    long,
    count
} optional { turned });

impl CouplingKind for Ravigneaux {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        word("kind-ravigneaux")
    }

    fn members(&self) -> Vec<Member<'_>> {
        vec![
            Member::gear(Role::SmallSun, &self.small_sun),
            Member::gear(Role::LargeSun, &self.large_sun),
            Member::carrier(&self.carrier),
            Member::gear(Role::Ring, &self.ring),
        ]
    }

    fn turned(&self) -> Option<bool> {
        self.turned
    }

    fn parts(&mut self) -> Parts<'_> {
        Parts {
            id: &mut self.id,
            label: &mut self.label,
            shafts: vec![
                Some(&mut self.small_sun.shaft),
                Some(&mut self.large_sun.shaft),
                Some(&mut self.carrier),
                Some(&mut self.ring.shaft),
            ],
            teeth: vec![
                (Role::SmallSun.into(), &mut self.small_sun.teeth),
                (PinionName::Short.into(), &mut self.short.teeth),
                (Role::LargeSun.into(), &mut self.large_sun.teeth),
                (PinionName::Long.into(), &mut self.long.teeth),
                (Role::Ring.into(), &mut self.ring.teeth),
            ],
            count: Some(&mut self.count),
            turned: Some(&mut self.turned),
        }
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let [a, b, r] =
            [&self.small_sun, &self.large_sun, &self.ring].map(|gear| gear.teeth.coefficient());
        vec![vec![a, 0, r - a, -r], vec![0, b, -(b + r), r]]
    }

    /// ka = R/Sa and kb = R/Sb.
    fn row_ratios(&self) -> Vec<RowRatio> {
        let over = |letter, sun: &Gear| (vec![("R", self.ring.teeth)], vec![(letter, sun.teeth)]);
        let (small, large) = (over("Sa", &self.small_sun), over("Sb", &self.large_sun));
        vec![
            RowRatio {
                constant: vec![1, 0, -1, 0],
                slope: vec![0, 0, 1, -1],
                numerator: small.0,
                denominator: small.1,
            },
            RowRatio {
                constant: vec![0, 1, -1, 0],
                slope: vec![0, 0, -1, 1],
                numerator: large.0,
                denominator: large.1,
            },
        ]
    }

    fn rolling(&self) -> Vec<Rolling> {
        let row = |from, meshes| Rolling {
            from,
            to: 3,
            carrier: 2,
            meshes,
        };
        vec![
            row(
                0,
                vec![
                    ToothMesh::new("mesh-small-short", 0),
                    ToothMesh::new("mesh-short-long", 0),
                ],
            ),
            row(1, vec![ToothMesh::new("mesh-large-long", 1)]),
        ]
    }

    fn shared_meshes(&self) -> Vec<ToothMesh> {
        vec![ToothMesh::new("mesh-long-ring", 3)]
    }

    /// The short pinion rolls on the small sun, the long one inside the ring:
    /// ωs − ωc = −(Sa/s)·(ωa − ωc) and ωl − ωc = (R/l)·(ωr − ωc).
    fn pinions(&self) -> Vec<PinionSpin> {
        let (a, r) = (
            self.small_sun.teeth.coefficient(),
            self.ring.teeth.coefficient(),
        );
        vec![
            PinionSpin {
                name: PinionName::Short,
                teeth: self.short.teeth,
                second_step: None,
                coefficients: vec![-a, 0, a, 0],
                divisor: self.short.teeth.coefficient(),
            },
            PinionSpin {
                name: PinionName::Long,
                teeth: self.long.teeth,
                second_step: None,
                coefficients: vec![0, 0, -r, r],
                divisor: self.long.teeth.coefficient(),
            },
        ]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (small, large, ring) = (self.small_sun.teeth, self.large_sun.teeth, self.ring.teeth);
        let (short, long, count) = (self.short.teeth, self.long.teeth, self.count.get());
        let pins = self.pins();
        let spaced = |teeth, name| tooth_checks::equal_spacing(teeth, name, count);
        [
            tooth_checks::coaxial((Role::LargeSun, large), (PinionName::Long, long), ring),
            tooth_checks::pins_reach(&pins),
            spaced(ring.get().abs_diff(small.get()), "R − Sa"),
            spaced(large.get() + ring.get(), "Sb + R"),
            tooth_checks::double_neighbours_clear(&pins, count),
            tooth_checks::long_pinion_passes(small, large),
            tooth_checks::fewest_teeth(Role::SmallSun, small),
            tooth_checks::fewest_teeth(Role::LargeSun, large),
            tooth_checks::fewest_teeth(PinionName::Short, short),
            tooth_checks::fewest_teeth(PinionName::Long, long),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let pins = self.pins();
        let [short, long] = pins.radii;
        // Where the pins cannot reach each other the set is drawn unfolded, and warned about.
        let angle = pins.angle().unwrap_or(0.0);
        let count = self.count.get();
        let pinion = |pinion, row: &PinionRow, centre, partner| {
            ProfileGear::pinion(
                (pinion, 2),
                row.teeth,
                centre,
                count,
                Partner::Meshes(partner),
            )
        };
        let central = |member, gear: &Gear, internal, partner: Option<usize>| {
            ProfileGear::central(member, gear.teeth, internal, partner.map(Partner::Meshes))
        };
        Profile {
            gears: vec![
                central(1, &self.large_sun, false, None).lying(Plane::Far),
                pinion(1, &self.long, long, 0),
                pinion(0, &self.short, short, 1)
                    .turned(angle)
                    .lying(Plane::Near),
                central(0, &self.small_sun, false, Some(2)).lying(Plane::Near),
                central(3, &self.ring, true, Some(1)),
            ],
            coaxial: true,
        }
    }
}
