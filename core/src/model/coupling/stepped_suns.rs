//! Two suns on stepped pinions, without a ring.

use serde::Serialize;

use super::{
    CouplingKind, Gear, Member, MeshRow, Partner, Parts, PinionCount, PinionName, PinionRow,
    PinionSpin, Plane, Profile, ProfileGear, Role, Rolling, RowRatio, ToothMesh,
};
use crate::base::said::word;
use crate::json::read_fields;
use crate::model::tooth_checks::{self, ToothWarning};

/// First sun – first pinion = second pinion – second sun, the two pinions turning as one.
///
/// Seen from the carrier the first sun drives the stepped pinion at −Sa/P and the pinion the
/// second sun at −Q/Sb, with Sa and Sb teeth on the suns, P and Q on the steps that mesh with
/// them. Willis' relation then reads (as in any textbook on such trains, from memory):
///
/// Sa·Q·ωa − Sb·P·ωb − (Sa·Q − Sb·P)·ωc = 0
///
/// With Sa·Q close to Sb·P the ratio from the carrier to a sun becomes very large, and its losses
/// with it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SteppedSuns {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// The first sun.
    pub first_sun: Gear,
    /// The second sun.
    pub second_sun: Gear,
    /// Id of the carrier's shaft, or `housing`.
    pub carrier: String,
    /// The step of the pinions that meshes with the first sun.
    pub first_pinion: PinionRow,
    /// The step that meshes with the second sun.
    pub second_pinion: PinionRow,
    /// How many stepped pinions stand around the axis.
    pub count: PinionCount,
    /// Whether it is drawn turned round, its suns in the other order along the axis, where that was chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub turned: Option<bool>,
}

read_fields!(SteppedSuns {
    id,
    label,
    first_sun,
    second_sun,
    carrier,
    first_pinion,
    second_pinion,
    count
} optional { turned });

impl CouplingKind for SteppedSuns {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        word("kind-stepped-suns")
    }

    fn members(&self) -> Vec<Member<'_>> {
        vec![
            Member::gear(Role::FirstSun, &self.first_sun),
            Member::carrier(&self.carrier),
            Member::gear(Role::SecondSun, &self.second_sun),
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
                Some(&mut self.first_sun.shaft),
                Some(&mut self.carrier),
                Some(&mut self.second_sun.shaft),
            ],
            teeth: vec![
                (Role::FirstSun.into(), &mut self.first_sun.teeth),
                (PinionName::OnFirstSun.into(), &mut self.first_pinion.teeth),
                (
                    PinionName::OnSecondSun.into(),
                    &mut self.second_pinion.teeth,
                ),
                (Role::SecondSun.into(), &mut self.second_sun.teeth),
            ],
            count: Some(&mut self.count),
            turned: Some(&mut self.turned),
        }
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let first = self.first_sun.teeth.coefficient() * self.second_pinion.teeth.coefficient();
        let second = self.second_sun.teeth.coefficient() * self.first_pinion.teeth.coefficient();
        vec![vec![first, second - first, -second]]
    }

    /// k = Sb·P / (Sa·Q).
    fn row_ratios(&self) -> Vec<RowRatio> {
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope: vec![0, 1, -1],
            numerator: vec![
                ("Sb", self.second_sun.teeth),
                ("P", self.first_pinion.teeth),
            ],
            denominator: vec![
                ("Sa", self.first_sun.teeth),
                ("Q", self.second_pinion.teeth),
            ],
        }]
    }

    fn rolling(&self) -> Vec<Rolling> {
        vec![Rolling {
            from: 0,
            to: 2,
            carrier: 1,
            meshes: vec![
                ToothMesh::new("mesh-first-step", 0),
                ToothMesh::new("mesh-second-step", 2),
            ],
        }]
    }

    /// ωp − ωc = −(Sa/P)·(ωa − ωc): the pinion rolls on the first sun.
    fn pinions(&self) -> Vec<PinionSpin> {
        let a = self.first_sun.teeth.coefficient();
        vec![PinionSpin {
            name: PinionName::Stepped,
            teeth: self.first_pinion.teeth,
            second_step: Some(self.second_pinion.teeth),
            coefficients: vec![-a, a, 0],
            divisor: self.first_pinion.teeth.coefficient(),
        }]
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (first, second) = (self.first_sun.teeth, self.second_sun.teeth);
        let (p, q) = (self.first_pinion.teeth, self.second_pinion.teeth);
        let teeth = [first, p, q, second];
        let count = self.count.get();
        [
            tooth_checks::suns_coaxial(teeth),
            tooth_checks::suns_equal_spacing(teeth, count),
            tooth_checks::neighbours_clear(first.get() + p.get(), p.max(q), count),
            tooth_checks::fewest_teeth(Role::FirstSun, first),
            tooth_checks::fewest_teeth(Role::SecondSun, second),
            tooth_checks::fewest_teeth(PinionName::OnFirstSun, p),
            tooth_checks::fewest_teeth(PinionName::OnSecondSun, q),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn profile(&self) -> Profile {
        let (p, q) = (self.first_pinion.teeth, self.second_pinion.teeth);
        let centre = f64::from(self.first_sun.teeth.get() + p.get()) / 2.0;
        let count = self.count.get();
        // The smaller of two gears that lie one behind the other must be in front to be seen:
        // on the pins that is one step, on the axis the sun of the other.
        let (smaller, larger) = (Plane::Near, Plane::Far);
        let [first_step, second_step, first_sun, second_sun] = if p < q {
            [smaller, larger, larger, smaller]
        } else {
            [larger, smaller, smaller, larger]
        };
        let step = |teeth, partner| ProfileGear::pinion((0, 1), teeth, centre, count, partner);
        let sun =
            |member, gear: &Gear, partner| ProfileGear::central(member, gear.teeth, false, partner);
        Profile {
            gears: vec![
                sun(0, &self.first_sun, None).lying(first_sun),
                step(p, Partner::Meshes(0)).lying(first_step),
                step(q, Partner::Fixed(1)).lying(second_step),
                sun(2, &self.second_sun, Some(Partner::Meshes(2))).lying(second_sun),
            ],
            coaxial: true,
        }
    }
}
