//! A planetary set with one pinion row: sun, ring, and a carrier whose pinions mesh with both.

use serde::Serialize;

use super::{
    CouplingKind, Gear, Member, MeshRow, Partner, Parts, PinionName, PinionSpin, Pinions, Profile,
    ProfileGear, Role, Rolling, RowRatio, ToothMesh,
};
use crate::base::said::word;
use crate::json::read_fields;
use crate::model::tooth_checks::{self, ToothWarning};

/// Sun – pinion – ring.
///
/// With S and R teeth on sun and ring, Willis' relation (R. Willis, *Principles of
/// Mechanism*, 1841; same form in the Modelica Standard Library, `IdealPlanetary`):
///
/// S·ωs + R·ωr − (S + R)·ωc = 0
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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

read_fields!(Planetary {
    id,
    label,
    sun,
    ring,
    carrier,
    pinion
});

impl CouplingKind for Planetary {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        word("kind-planetary")
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
                (PinionName::Plain.into(), &mut self.pinion.teeth),
                (Role::Ring.into(), &mut self.ring.teeth),
            ],
            count: Some(&mut self.pinion.count),
            turned: None,
        }
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let (s, r) = (self.sun.teeth.coefficient(), self.ring.teeth.coefficient());
        vec![vec![s, -(s + r), r]]
    }

    fn row_ratios(&self) -> Vec<RowRatio> {
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope: vec![0, -1, 1],
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
                ToothMesh::new("mesh-sun-pinion", 0),
                ToothMesh::new("mesh-pinion-ring", 2),
            ],
        }]
    }

    /// ωp − ωc = −(S/P)·(ωs − ωc): the pinion rolls on the sun.
    fn pinions(&self) -> Vec<PinionSpin> {
        let s = self.sun.teeth.coefficient();
        vec![PinionSpin {
            name: PinionName::Plain,
            teeth: self.pinion.teeth,
            second_step: None,
            coefficients: vec![-s, s, 0],
            divisor: self.pinion.teeth.coefficient(),
        }]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (s, r, p) = (self.sun.teeth, self.ring.teeth, self.pinion.teeth);
        let count = self.pinion.count.get();
        [
            tooth_checks::coaxial((Role::Sun, s), (PinionName::Plain, p), r),
            tooth_checks::equal_spacing(s.get() + r.get(), "S + R", count),
            tooth_checks::neighbours_clear(s.get() + p.get(), p, count),
            tooth_checks::fewest_teeth(Role::Sun, s),
            tooth_checks::fewest_teeth(PinionName::Plain, p),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let centre = f64::from(self.sun.teeth.get() + self.pinion.teeth.get()) / 2.0;
        let (teeth, count) = (self.pinion.teeth, self.pinion.count.get());
        Profile {
            gears: vec![
                ProfileGear::central(0, self.sun.teeth, false, None),
                ProfileGear::pinion((0, 1), teeth, centre, count, Partner::Meshes(0)),
                ProfileGear::central(2, self.ring.teeth, true, Some(Partner::Meshes(1))),
            ],
            coaxial: true,
        }
    }
}
