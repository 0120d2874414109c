//! What a drawing needs to know about a coupling: its gears, their size and where they stand.

use super::Teeth;

/// What a gear is fixed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mount {
    /// The member with this index.
    Member(usize),
    /// The pinion with this index, on the carrier with that member index.
    Pinion {
        /// Index in [`super::CouplingKind::pinions`].
        pinion: usize,
        /// Index of the carrier among the members.
        carrier: usize,
    },
}

/// Where a gear lies along the axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Plane {
    /// Over the whole width of the coupling.
    Whole,
    /// In the half away from the input's end.
    Far,
    /// In the half at the input's end.
    Near,
}

/// One gear of a coupling. Lengths are in modules (a gear of z teeth has pitch diameter z).
#[derive(Debug, Clone, PartialEq)]
pub struct ProfileGear {
    /// What it is fixed to.
    pub mount: Mount,
    /// Tooth count.
    pub teeth: Teeth,
    /// Whether its teeth point inwards.
    pub internal: bool,
    /// Distance of its centre from the main axis of the coupling, in modules.
    pub centre_radius: f64,
    /// Angle of its centre around that axis from the first pinion, in radians, in the direction
    /// of positive speeds.
    pub centre_angle: f64,
    /// How many of it stand evenly around the axis.
    pub count: u32,
    /// Where it lies along the axis.
    pub plane: Plane,
    /// The earlier gear that decides where its teeth stand; the first gear has none.
    pub partner: Option<Partner>,
}

impl ProfileGear {
    /// A gear of a member about the main axis, over the whole width.
    pub(super) const fn central(
        member: usize,
        teeth: Teeth,
        internal: bool,
        partner: Option<Partner>,
    ) -> Self {
        Self {
            mount: Mount::Member(member),
            teeth,
            internal,
            centre_radius: 0.0,
            centre_angle: 0.0,
            count: 1,
            plane: Plane::Whole,
            partner,
        }
    }

    /// The gears of a pinion, over the whole width.
    pub(super) const fn pinion(
        (pinion, carrier): (usize, usize),
        teeth: Teeth,
        centre_radius: f64,
        count: u32,
        partner: Partner,
    ) -> Self {
        Self {
            mount: Mount::Pinion { pinion, carrier },
            teeth,
            internal: false,
            centre_radius,
            centre_angle: 0.0,
            count,
            plane: Plane::Whole,
            partner: Some(partner),
        }
    }

    /// The gear with its centre turned by an angle about the main axis.
    pub(super) const fn turned(self, centre_angle: f64) -> Self {
        Self {
            centre_angle,
            ..self
        }
    }

    /// The gear in another plane.
    pub(super) const fn lying(self, plane: Plane) -> Self {
        Self { plane, ..self }
    }
}

/// What an earlier gear of the list is to a gear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Partner {
    /// The gear with this index meshes with it.
    Meshes(usize),
    /// The gear with this index is one piece with it, as the steps of a stepped pinion are.
    Fixed(usize),
}

/// The gears of a coupling, and which of them mesh.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// The gears, each after its partner.
    pub gears: Vec<ProfileGear>,
    /// Whether the gears turn about one common axis with pinions between (a planetary set),
    /// or about fixed parallel axes (a gear pair).
    pub coaxial: bool,
}
