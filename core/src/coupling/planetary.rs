//! A planetary set with one pinion row: sun, ring, and a carrier whose pinions mesh with both.

use serde::{Deserialize, Serialize};

use super::{
    CouplingKind, Gear, Member, MeshRow, Mount, PinionSpin, Pinions, Profile, ProfileGear, Role,
    Rolling, RowRatio,
};
use crate::tooth_checks::{self, ToothWarning};

/// Sun – pinion – ring.
///
/// With S and R teeth on sun and ring, Willis' relation (R. Willis, *Principles of
/// Mechanism*, 1841; same form in the Modelica Standard Library, `IdealPlanetary`):
///
/// S·ωs + R·ωr − (S + R)·ωc = 0
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Planetary {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// The sun.
    pub sun: Gear,
    /// The ring.
    pub ring: Gear,
    /// Id of the carrier's shaft, or `housing`.
    pub carrier: String,
    /// The pinions.
    pub pinion: Pinions,
}

impl CouplingKind for Planetary {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        "planetary set, one pinion row"
    }

    fn members(&self) -> Vec<Member<'_>> {
        let (sun, ring) = (&self.sun, &self.ring);
        vec![
            Member {
                role: Role::Sun,
                shaft: &sun.shaft,
                teeth: Some(sun.teeth),
            },
            Member {
                role: Role::Carrier,
                shaft: &self.carrier,
                teeth: None,
            },
            Member {
                role: Role::Ring,
                shaft: &ring.shaft,
                teeth: Some(ring.teeth),
            },
        ]
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let (s, r) = (self.sun.teeth.coefficient(), self.ring.teeth.coefficient());
        vec![vec![s, -(s + r), r]]
    }

    fn row_ratios(&self) -> Vec<RowRatio> {
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope: vec![0, -1, 1],
            numerator: ("R", self.ring.teeth),
            denominator: ("S", self.sun.teeth),
        }]
    }

    fn rolling(&self) -> Vec<Rolling> {
        vec![Rolling {
            from: 0,
            to: 2,
            carrier: 1,
            meshes: vec!["sun and pinion", "pinion and ring"],
        }]
    }

    /// ωp − ωc = −(S/P)·(ωs − ωc): the pinion rolls on the sun.
    fn pinions(&self) -> Vec<PinionSpin> {
        let s = self.sun.teeth.coefficient();
        vec![PinionSpin {
            name: "pinion",
            teeth: self.pinion.teeth,
            coefficients: vec![-s, s, 0],
            divisor: self.pinion.teeth.coefficient(),
        }]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (s, r, p) = (self.sun.teeth, self.ring.teeth, self.pinion.teeth);
        let count = self.pinion.count.get();
        [
            tooth_checks::coaxial(s, p, r),
            tooth_checks::equal_spacing(s.get() + r.get(), "S + R", count),
            tooth_checks::neighbours_clear(s, p, count),
            tooth_checks::fewest_teeth("sun", s),
            tooth_checks::fewest_teeth("pinion", p),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let centre = f64::from(self.sun.teeth.get() + self.pinion.teeth.get()) / 2.0;
        let gear = |mount, teeth, internal, centre_radius, count| ProfileGear {
            mount,
            teeth,
            internal,
            centre_radius,
            centre_angle: 0.0,
            count,
        };
        let pinion = Mount::Pinion {
            pinion: 0,
            carrier: 1,
        };
        Profile {
            gears: vec![
                gear(Mount::Member(0), self.sun.teeth, false, 0.0, 1),
                gear(
                    pinion,
                    self.pinion.teeth,
                    false,
                    centre,
                    self.pinion.count.get(),
                ),
                gear(Mount::Member(2), self.ring.teeth, true, 0.0, 1),
            ],
            coaxial: true,
        }
    }
}
