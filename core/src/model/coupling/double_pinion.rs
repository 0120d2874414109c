//! A planetary set with two pinion rows in series between sun and ring.

use serde::Serialize;

use super::{
    CouplingKind, Gear, Member, MeshRow, Partner, Parts, PinionCount, PinionName, PinionRow,
    PinionSpin, Profile, ProfileGear, Role, Rolling, RowRatio, ToothMesh,
};
use crate::base::said::word;
use crate::json::read_fields;
use crate::model::tooth_checks::{self, PinTriangle, ToothWarning};

/// Sun – inner pinion – outer pinion – ring, both pinions on one carrier.
///
/// The extra mesh turns the ring the same way as the sun when the carrier is held, so the sign
/// of R in Willis' relation changes (common practice; the published ratios of trains with such
/// a set agree):
///
/// S·ωs − R·ωr − (S − R)·ωc = 0
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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
    /// Where the pins stand: the inner ones on the sun, the outer ones in the ring.
    fn pins(&self) -> PinTriangle {
        let [sun, inner, outer, ring] = [
            self.sun.teeth,
            self.inner.teeth,
            self.outer.teeth,
            self.ring.teeth,
        ]
        .map(|teeth| f64::from(teeth.get()));
        PinTriangle {
            names: [PinionName::Inner, PinionName::Outer],
            radii: [(sun + inner) / 2.0, (ring - outer) / 2.0],
            teeth: [self.inner.teeth, self.outer.teeth],
        }
    }
}

read_fields!(DoublePinion {
    id,
    label,
    sun,
    ring,
    carrier,
    inner,
    outer,
    count
});

impl CouplingKind for DoublePinion {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        word("kind-double-pinion")
    }

    fn members(&self) -> Vec<Member<'_>> {
        vec![
            Member::gear(Role::Sun, &self.sun),
            Member::carrier(&self.carrier),
            Member::gear(Role::Ring, &self.ring),
        ]
    }

    fn parts(&mut self) -> Parts<'_> {
        Parts {
            id: &mut self.id,
            label: &mut self.label,
            shafts: vec![
                Some(&mut self.sun.shaft),
                Some(&mut self.carrier),
                Some(&mut self.ring.shaft),
            ],
            teeth: vec![
                (Role::Sun.into(), &mut self.sun.teeth),
                (PinionName::Inner.into(), &mut self.inner.teeth),
                (PinionName::Outer.into(), &mut self.outer.teeth),
                (Role::Ring.into(), &mut self.ring.teeth),
            ],
            count: Some(&mut self.count),
            turned: None,
        }
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let (s, r) = (self.sun.teeth.coefficient(), self.ring.teeth.coefficient());
        vec![vec![s, r - s, -r]]
    }

    fn row_ratios(&self) -> Vec<RowRatio> {
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope: vec![0, 1, -1],
            numerator: vec![("R", self.ring.teeth)],
            denominator: vec![("S", self.sun.teeth)],
        }]
    }

    fn rolling(&self) -> Vec<Rolling> {
        vec![Rolling {
            from: 0,
            to: 2,
            carrier: 1,
            meshes: vec![
                ToothMesh::new("mesh-sun-inner", 0),
                ToothMesh::new("mesh-inner-outer", 0),
                ToothMesh::new("mesh-outer-ring", 2),
            ],
        }]
    }

    /// The inner pinion rolls on the sun, the outer one inside the ring:
    /// ωi − ωc = −(S/I)·(ωs − ωc) and ωo − ωc = (R/O)·(ωr − ωc).
    fn pinions(&self) -> Vec<PinionSpin> {
        let (s, r) = (self.sun.teeth.coefficient(), self.ring.teeth.coefficient());
        vec![
            PinionSpin {
                name: PinionName::Inner,
                teeth: self.inner.teeth,
                second_step: None,
                coefficients: vec![-s, s, 0],
                divisor: self.inner.teeth.coefficient(),
            },
            PinionSpin {
                name: PinionName::Outer,
                teeth: self.outer.teeth,
                second_step: None,
                coefficients: vec![0, -r, r],
                divisor: self.outer.teeth.coefficient(),
            },
        ]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (s, r) = (self.sun.teeth, self.ring.teeth);
        let count = self.count.get();
        let pins = self.pins();
        [
            tooth_checks::pins_reach(&pins),
            tooth_checks::equal_spacing(r.get().abs_diff(s.get()), "R − S", count),
            tooth_checks::double_neighbours_clear(&pins, count),
            tooth_checks::fewest_teeth(Role::Sun, s),
            tooth_checks::fewest_teeth(PinionName::Inner, self.inner.teeth),
            tooth_checks::fewest_teeth(PinionName::Outer, self.outer.teeth),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let pins = self.pins();
        let [inner, outer] = pins.radii;
        // Where the pins cannot reach each other the set is drawn unfolded, and warned about.
        let angle = pins.angle().unwrap_or(0.0);
        let count = self.count.get();
        let row = |pinion, row: &PinionRow, centre| {
            ProfileGear::pinion(
                (pinion, 1),
                row.teeth,
                centre,
                count,
                Partner::Meshes(pinion),
            )
        };
        Profile {
            gears: vec![
                ProfileGear::central(0, self.sun.teeth, false, None),
                row(0, &self.inner, inner),
                row(1, &self.outer, outer).turned(angle),
                ProfileGear::central(2, self.ring.teeth, true, Some(Partner::Meshes(2))),
            ],
            coaxial: true,
        }
    }
}
