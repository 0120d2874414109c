//! A planetary set with two pinion rows in series between sun and ring.

use serde::{Deserialize, Serialize};

use super::{
    CouplingKind, Gear, Member, MeshRow, Mount, PinionCount, PinionRow, PinionSpin, Profile,
    ProfileGear, Role, Rolling, RowRatio,
};
use crate::tooth_checks::{self, ToothWarning};

/// Sun – inner pinion – outer pinion – ring, both pinions on one carrier.
///
/// The extra mesh turns the ring the same way as the sun when the carrier is held, so the sign
/// of R in Willis' relation changes (common practice; the published ratios of trains with such
/// a set agree):
///
/// S·ωs − R·ωr − (S − R)·ωc = 0
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DoublePinion {
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
    /// The pinions that mesh with the sun.
    pub inner: PinionRow,
    /// The pinions that mesh with the ring.
    pub outer: PinionRow,
    /// How many pairs stand around the axis.
    pub count: PinionCount,
}

impl DoublePinion {
    /// Distances of the inner and outer pin from the axis and from each other, in modules.
    fn centre_distances(&self) -> (f64, f64, f64) {
        let [s, r, i, o] = [
            self.sun.teeth,
            self.ring.teeth,
            self.inner.teeth,
            self.outer.teeth,
        ]
        .map(|teeth| f64::from(teeth.get()));
        ((s + i) / 2.0, (r - o) / 2.0, (i + o) / 2.0)
    }

    /// Angle at the axis between the inner and the outer pin, in radians; `None` when the
    /// three centre distances make no triangle.
    fn pin_angle(&self) -> Option<f64> {
        let (inner, outer, between) = self.centre_distances();
        let cosine = (inner * inner + outer * outer - between * between) / (2.0 * inner * outer);
        (inner > 0.0 && outer > 0.0 && cosine.abs() <= 1.0).then(|| cosine.acos())
    }
}

impl CouplingKind for DoublePinion {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        "planetary set, two pinion rows"
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
        vec![vec![s, r - s, -r]]
    }

    fn row_ratios(&self) -> Vec<RowRatio> {
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope: vec![0, 1, -1],
            numerator: ("R", self.ring.teeth),
            denominator: ("S", self.sun.teeth),
        }]
    }

    fn rolling(&self) -> Vec<Rolling> {
        vec![Rolling {
            from: 0,
            to: 2,
            carrier: 1,
            meshes: vec![
                "sun and inner pinion",
                "inner and outer pinion",
                "outer pinion and ring",
            ],
        }]
    }

    /// The inner pinion rolls on the sun, the outer one inside the ring:
    /// ωi − ωc = −(S/I)·(ωs − ωc) and ωo − ωc = (R/O)·(ωr − ωc).
    fn pinions(&self) -> Vec<PinionSpin> {
        let (s, r) = (self.sun.teeth.coefficient(), self.ring.teeth.coefficient());
        vec![
            PinionSpin {
                name: "inner pinion",
                teeth: self.inner.teeth,
                coefficients: vec![-s, s, 0],
                divisor: self.inner.teeth.coefficient(),
            },
            PinionSpin {
                name: "outer pinion",
                teeth: self.outer.teeth,
                coefficients: vec![0, -r, r],
                divisor: self.outer.teeth.coefficient(),
            },
        ]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (s, r) = (self.sun.teeth, self.ring.teeth);
        let count = self.count.get();
        let (inner, outer, between) = self.centre_distances();
        let pins = tooth_checks::DoublePins {
            inner,
            outer,
            between,
            angle: self.pin_angle(),
            inner_teeth: self.inner.teeth,
            outer_teeth: self.outer.teeth,
        };
        [
            tooth_checks::pins_reach(&pins),
            tooth_checks::equal_spacing(r.get().abs_diff(s.get()), "R − S", count),
            tooth_checks::double_neighbours_clear(&pins, count),
            tooth_checks::fewest_teeth("sun", s),
            tooth_checks::fewest_teeth("inner pinion", self.inner.teeth),
            tooth_checks::fewest_teeth("outer pinion", self.outer.teeth),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let (inner, outer, _) = self.centre_distances();
        // Where the pins cannot reach each other the set is drawn unfolded, and warned about.
        let angle = self.pin_angle().unwrap_or(0.0);
        let gear = |mount, teeth, internal, centre_radius, centre_angle, count| ProfileGear {
            mount,
            teeth,
            internal,
            centre_radius,
            centre_angle,
            count,
        };
        let count = self.count.get();
        let pinion = |pinion| Mount::Pinion { pinion, carrier: 1 };
        Profile {
            gears: vec![
                gear(Mount::Member(0), self.sun.teeth, false, 0.0, 0.0, 1),
                gear(pinion(0), self.inner.teeth, false, inner, 0.0, count),
                gear(pinion(1), self.outer.teeth, false, outer, angle, count),
                gear(Mount::Member(2), self.ring.teeth, true, 0.0, 0.0, 1),
            ],
            coaxial: true,
        }
    }
}
