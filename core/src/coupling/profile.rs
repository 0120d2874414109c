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
    /// Angle of its centre around that axis from the first pinion, in radians, in the direction
    /// of positive speeds.
    pub centre_angle: f64,
    /// How many of it stand evenly around the axis.
    pub count: u32,
}

/// What an earlier gear of the list is to a gear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Partner {
    /// The gear with this index meshes with it.
    Meshes(usize),
    /// The gear with this index is one piece with it, as the rows of a stepped pinion are.
    Fixed(usize),
}

/// The gears of a coupling from the axis outwards, and which of them mesh.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// The gears; [`Profile::partner`] says which of them mesh.
    pub gears: Vec<ProfileGear>,
    /// Whether the gears turn about one common axis with pinions between (a planetary set),
    /// or about fixed parallel axes (a gear pair).
    pub coaxial: bool,
}

impl Profile {
    /// Which earlier gear decides where the teeth of gear `gear` stand; the first gear has none.
    ///
    /// Each gear meshes with the one before it, unless both are fixed to the same thing.
    pub fn partner(&self, gear: usize) -> Option<Partner> {
        let before = gear.checked_sub(1)?;
        let one_piece = match (self.gears.get(before)?.mount, self.gears.get(gear)?.mount) {
            (Mount::Member(a), Mount::Member(b)) => a == b,
            (Mount::Pinion { pinion: a, .. }, Mount::Pinion { pinion: b, .. }) => a == b,
            (Mount::Member(_), Mount::Pinion { .. }) | (Mount::Pinion { .. }, Mount::Member(_)) => {
                false
            }
        };
        Some(if one_piece {
            Partner::Fixed(before)
        } else {
            Partner::Meshes(before)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_rows_of_a_stepped_pinion_are_one_piece() -> Result<(), String> {
        let teeth = Teeth::try_from(20)?;
        let gear = |mount| ProfileGear {
            mount,
            teeth,
            internal: false,
            centre_radius: 0.0,
            centre_angle: 0.0,
            count: 1,
        };
        let pin = Mount::Pinion {
            pinion: 0,
            carrier: 1,
        };
        let mounts = [Mount::Member(0), pin, pin, Mount::Member(2)];
        let profile = Profile {
            gears: mounts.map(gear).to_vec(),
            coaxial: true,
        };
        assert_eq!(
            [0, 1, 2, 3, 4].map(|gear| profile.partner(gear)),
            [
                None,
                Some(Partner::Meshes(0)),
                Some(Partner::Fixed(1)),
                Some(Partner::Meshes(2)),
                None
            ]
        );
        Ok(())
    }
}
