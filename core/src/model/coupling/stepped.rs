//! A planetary set with stepped pinions: two gears of different size, one piece on one pin.

use serde::Serialize;

use super::{
    CouplingKind, Gear, Member, MeshRow, Partner, Parts, PinionCount, PinionName, PinionRow,
    PinionSpin, Plane, Profile, ProfileGear, Role, Rolling, RowRatio, ToothMesh,
};
use crate::base::said::word;
use crate::json::read_fields;
use crate::model::tooth_checks::{self, ToothWarning};

/// Sun – sun pinion = ring pinion – ring, the two pinions turning as one.
///
/// Seen from the carrier the sun drives the stepped pinion at −S/P, with P teeth on the step
/// that meshes with the sun, and the pinion the ring at Q/R, with Q on the step that meshes with
/// the ring. Willis' relation then reads (the ratios published for hub gears with such sets
/// agree):
///
/// S·Q·ωs + R·P·ωr − (S·Q + R·P)·ωc = 0
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Stepped {
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
    /// The step of the pinions that meshes with the sun.
    pub sun_pinion: PinionRow,
    /// The step that meshes with the ring.
    pub ring_pinion: PinionRow,
    /// How many stepped pinions stand around the axis.
    pub count: PinionCount,
    /// Whether it is drawn turned round, its steps in the other order along the axis, where that was chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub turned: Option<bool>,
}

read_fields!(Stepped {
    id,
    label,
    sun,
    ring,
    carrier,
    sun_pinion,
    ring_pinion,
    count
} optional { turned });

impl CouplingKind for Stepped {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        word("kind-stepped")
    }

    fn members(&self) -> Vec<Member<'_>> {
        vec![
            Member::gear(Role::Sun, &self.sun),
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
                Some(&mut self.sun.shaft),
                Some(&mut self.carrier),
                Some(&mut self.ring.shaft),
            ],
            teeth: vec![
                (Role::Sun.into(), &mut self.sun.teeth),
                (PinionName::OnSun.into(), &mut self.sun_pinion.teeth),
                (PinionName::OnRing.into(), &mut self.ring_pinion.teeth),
                (Role::Ring.into(), &mut self.ring.teeth),
            ],
            count: Some(&mut self.count),
            turned: Some(&mut self.turned),
        }
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let sun = self.sun.teeth.coefficient() * self.ring_pinion.teeth.coefficient();
        let ring = self.ring.teeth.coefficient() * self.sun_pinion.teeth.coefficient();
        vec![vec![sun, -(sun + ring), ring]]
    }

    /// k = R·P / (S·Q).
    fn row_ratios(&self) -> Vec<RowRatio> {
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope: vec![0, -1, 1],
            numerator: vec![("R", self.ring.teeth), ("P", self.sun_pinion.teeth)],
            denominator: vec![("S", self.sun.teeth), ("Q", self.ring_pinion.teeth)],
        }]
    }

    fn rolling(&self) -> Vec<Rolling> {
        vec![Rolling {
            from: 0,
            to: 2,
            carrier: 1,
            meshes: vec![
                ToothMesh::new("mesh-sun-step", 0),
                ToothMesh::new("mesh-step-ring", 2),
            ],
        }]
    }

    /// ωp − ωc = −(S/P)·(ωs − ωc): the pinion rolls on the sun.
    fn pinions(&self) -> Vec<PinionSpin> {
        let s = self.sun.teeth.coefficient();
        vec![PinionSpin {
            name: PinionName::Stepped,
            teeth: self.sun_pinion.teeth,
            second_step: Some(self.ring_pinion.teeth),
            coefficients: vec![-s, s, 0],
            divisor: self.sun_pinion.teeth.coefficient(),
        }]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (sun, ring) = (self.sun.teeth, self.ring.teeth);
        let (sun_pinion, ring_pinion) = (self.sun_pinion.teeth, self.ring_pinion.teeth);
        let teeth = [sun, sun_pinion, ring_pinion, ring];
        let count = self.count.get();
        let pin_circle = sun.get() + sun_pinion.get();
        [
            tooth_checks::stepped_coaxial(teeth),
            tooth_checks::stepped_equal_spacing(teeth, count),
            tooth_checks::neighbours_clear(pin_circle, sun_pinion.max(ring_pinion), count),
            tooth_checks::fewest_teeth(Role::Sun, sun),
            tooth_checks::fewest_teeth(PinionName::OnSun, sun_pinion),
            tooth_checks::fewest_teeth(PinionName::OnRing, ring_pinion),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let (sun_pinion, ring_pinion) = (self.sun_pinion.teeth, self.ring_pinion.teeth);
        let centre = f64::from(self.sun.teeth.get() + sun_pinion.get()) / 2.0;
        let count = self.count.get();
        // The smaller step lies nearer to whoever looks on, or nobody would see it.
        let (sun_plane, ring_plane) = if sun_pinion < ring_pinion {
            (Plane::Near, Plane::Far)
        } else {
            (Plane::Far, Plane::Near)
        };
        let step = |teeth, partner| ProfileGear::pinion((0, 1), teeth, centre, count, partner);
        Profile {
            gears: vec![
                ProfileGear::central(0, self.sun.teeth, false, None).lying(sun_plane),
                step(sun_pinion, Partner::Meshes(0)).lying(sun_plane),
                step(ring_pinion, Partner::Fixed(1)).lying(ring_plane),
                ProfileGear::central(2, self.ring.teeth, true, Some(Partner::Meshes(2)))
                    .lying(ring_plane),
            ],
            coaxial: true,
        }
    }
}
