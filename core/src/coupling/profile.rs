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
    /// Angle of its centre around that axis from the first pinion, in radians, anticlockwise.
    pub centre_angle: f64,
    /// How many of it stand evenly around the axis.
    pub count: u32,
}

/// The gears of a coupling from the axis outwards, and which of them mesh.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// The gears; each meshes with the next one in the list.
    pub gears: Vec<ProfileGear>,
    /// Whether the gears turn about one common axis with pinions between (a planetary set),
    /// or about fixed parallel axes (a gear pair).
    pub coaxial: bool,
}
