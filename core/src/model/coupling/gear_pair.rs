//! Two gears in mesh on fixed parallel axes.

use serde::Serialize;

use super::{
    CouplingKind, Gear, Member, MeshRow, Partner, Parts, PinionSpin, Profile, ProfileGear, Role,
    Rolling, RowRatio, ToothMesh,
};
use crate::base::problem::Problem;
use crate::base::said::word;
use crate::json::{Read, Value, one_of, read_fields};
use crate::model::scenario::HOUSING;
use crate::model::tooth_checks::{self, ToothWarning};

/// How the teeth of a pair meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub enum Mesh {
    /// Both gears have teeth on the outside: they turn opposite ways.
    External,
    /// The second gear is internal and surrounds the first: they turn the same way.
    Internal,
}

/// First gear – second gear, axes fixed in the housing.
///
/// The pitch lines run at one speed (common practice, no source):
/// external Za·ωa + Zb·ωb = 0, internal Za·ωa − Zb·ωb = 0.
///
/// The frame is a member with speed zero, so that the pair has a lever like any set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GearPair {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// How the teeth meet.
    pub mesh: Mesh,
    /// The first gear.
    pub first: Gear,
    /// The second gear; the internal one when the mesh is internal.
    pub second: Gear,
}

read_fields!(GearPair {
    id,
    label,
    mesh,
    first,
    second
});

impl Read for Mesh {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [("external", Self::External), ("internal", Self::Internal)];
        one_of(&value, place, &words, problems)
    }
}

impl CouplingKind for GearPair {
    fn id(&self) -> &str {
        &self.id
    }

    fn label(&self) -> &str {
        &self.label
    }

    fn kind_words(&self) -> &'static str {
        match self.mesh {
            Mesh::External => word("kind-external-pair"),
            Mesh::Internal => word("kind-internal-pair"),
        }
    }

    fn members(&self) -> Vec<Member<'_>> {
        let (first, second) = (&self.first, &self.second);
        vec![
            Member {
                role: Role::First,
                shaft: &first.shaft,
                teeth: Some(first.teeth),
            },
            Member {
                role: Role::Frame,
                shaft: HOUSING,
                teeth: None,
            },
            Member {
                role: Role::Second,
                shaft: &second.shaft,
                teeth: Some(second.teeth),
            },
        ]
    }

    fn parts(&mut self) -> Parts<'_> {
        Parts {
            id: &mut self.id,
            label: &mut self.label,
            shafts: vec![
                Some(&mut self.first.shaft),
                None,
                Some(&mut self.second.shaft),
            ],
            teeth: vec![
                (Role::First.into(), &mut self.first.teeth),
                (Role::Second.into(), &mut self.second.teeth),
            ],
            count: None,
            turned: None,
        }
    }

    fn mesh_rows(&self) -> Vec<MeshRow> {
        let (first, second) = (
            self.first.teeth.coefficient(),
            self.second.teeth.coefficient(),
        );
        let second = match self.mesh {
            Mesh::External => second,
            Mesh::Internal => -second,
        };
        vec![vec![first, -(first + second), second]]
    }

    fn row_ratios(&self) -> Vec<RowRatio> {
        let slope = match self.mesh {
            Mesh::External => vec![0, -1, 1],
            Mesh::Internal => vec![0, 1, -1],
        };
        vec![RowRatio {
            constant: vec![1, -1, 0],
            slope,
            numerator: vec![("Zb", self.second.teeth)],
            denominator: vec![("Za", self.first.teeth)],
        }]
    }

    fn rolling(&self) -> Vec<Rolling> {
        vec![Rolling {
            from: 0,
            to: 2,
            carrier: 1,
            meshes: vec![ToothMesh::new("mesh-pair", 0)],
        }]
    }

    fn pinions(&self) -> Vec<PinionSpin> {
        Vec::new()
    }

    fn tooth_warnings(&self) -> Vec<ToothWarning> {
        let (first, second) = (self.first.teeth, self.second.teeth);
        let inside = match self.mesh {
            Mesh::External => tooth_checks::fewest_teeth(Role::Second, second),
            Mesh::Internal => tooth_checks::fits_inside(first, second),
        };
        [tooth_checks::fewest_teeth(Role::First, first), inside]
            .into_iter()
            .flatten()
            .collect()
    }

    fn profile(&self) -> Profile {
        let [first, second] =
            [&self.first, &self.second].map(|gear| f64::from(gear.teeth.get()) / 2.0);
        let (internal, distance) = match self.mesh {
            Mesh::External => (false, first + second),
            Mesh::Internal => (true, second - first),
        };
        Profile {
            gears: vec![
                ProfileGear::central(0, self.first.teeth, false, None),
                ProfileGear {
                    centre_radius: distance,
                    ..ProfileGear::central(2, self.second.teeth, internal, Some(Partner::Meshes(0)))
                },
            ],
            coaxial: false,
        }
    }
}
