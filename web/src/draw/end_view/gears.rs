//! Where the gears of a coupling stand and how far each has turned, so that all of them mesh.
//!
//! Lengths are in modules from the main axis, angles in radians clockwise from the right: on a
//! screen, where y runs down, that is the ordinary (cos, sin).

use std::f64::consts::{PI, TAU};

use levertrain_core::coupling::{Mount, Partner, Profile};
use levertrain_core::sin_cos;

/// How far the members have turned, and the pinions about their pins.
#[derive(Debug, Clone, PartialEq)]
pub struct Turns {
    /// Of each member.
    pub members: Vec<f64>,
    /// Of each kind of pinion, about its own pin.
    pub pinions: Vec<f64>,
}

impl Turns {
    /// How far what is mounted so has turned.
    fn of(&self, mount: Mount) -> f64 {
        match mount {
            Mount::Member(member) => self.members[member],
            Mount::Pinion { pinion, carrier } => self.members[carrier] + self.pinions[pinion],
        }
    }

    /// How far the centre of what is mounted so has been carried around the main axis.
    fn carried(&self, mount: Mount) -> f64 {
        match mount {
            Mount::Member(_) => 0.0,
            Mount::Pinion { carrier, .. } => self.members[carrier],
        }
    }
}

/// One gear, standing somewhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// Index of its gear in the profile.
    pub gear: usize,
    /// Its centre, in modules from the main axis.
    pub centre: (f64, f64),
    /// Radius of its pitch circle in modules.
    pub pitch: f64,
    /// Tooth count.
    pub teeth: u32,
    /// Whether its teeth point inwards.
    pub internal: bool,
    /// Angle of the middle of one tooth, the marked one.
    pub lead: f64,
}

/// Depth of a tooth outside its pitch circle (inside it, for an internal gear), in modules.
pub const ADDENDUM: f64 = 1.0;

/// Depth of a tooth space on the other side of the pitch circle, in modules.
pub const DEDENDUM: f64 = 1.25;

impl Standing {
    /// Radius of the circle through the tooth tips, in modules.
    pub fn tip(&self) -> f64 {
        self.pitch + self.outwards() * ADDENDUM
    }

    /// Radius of the circle through the bottoms of the tooth spaces, in modules.
    pub fn root(&self) -> f64 {
        self.pitch - self.outwards() * DEDENDUM
    }

    /// 1 where teeth point outwards, −1 where they point inwards.
    pub fn outwards(&self) -> f64 {
        if self.internal { -1.0 } else { 1.0 }
    }
}

/// All gears of a coupling after `turns`. `base` is the direction from the main axis in which
/// the first pinion (or the second gear of a pair) stood at the start.
///
/// In the order of the profile's gears, all copies of a gear in a row.
pub fn stand(profile: &Profile, turns: &Turns, base: f64) -> Vec<Standing> {
    let mut all = at_rest(profile, base);
    for standing in &mut all {
        let mount = profile.gears[standing.gear].mount;
        let (sin, cos) = sin_cos(turns.carried(mount));
        let (x, y) = standing.centre;
        standing.centre = (x * cos - y * sin, x * sin + y * cos);
        standing.lead += turns.of(mount);
    }
    all
}

/// All gears before anything has turned, teeth in mesh. They stay in mesh for ever, because
/// the angles satisfy the equations of the meshes just as the speeds do.
fn at_rest(profile: &Profile, base: f64) -> Vec<Standing> {
    let mut all: Vec<Standing> = Vec::new();
    let mut starts: Vec<usize> = Vec::new();
    for (index, gear) in profile.gears.iter().enumerate() {
        starts.push(all.len());
        for copy in 0..gear.count {
            let around = base + gear.centre_angle + TAU * f64::from(copy) / f64::from(gear.count);
            let (sin, cos) = sin_cos(around);
            let mut standing = Standing {
                gear: index,
                centre: (gear.centre_radius * cos, gear.centre_radius * sin),
                pitch: f64::from(gear.teeth.get()) / 2.0,
                teeth: gear.teeth.get(),
                internal: gear.internal,
                lead: base,
            };
            if let Some(partner) = gear.partner {
                let (Partner::Meshes(other) | Partner::Fixed(other)) = partner;
                let copies = profile.gears[other].count;
                let other = all[starts[other] + copy.min(copies - 1) as usize];
                match partner {
                    Partner::Meshes(_) => engage(&mut standing, &other),
                    Partner::Fixed(_) => standing.lead = other.lead,
                }
            }
            mark_tooth_nearest(&mut standing, base);
            all.push(standing);
        }
        // The first stepped pinion decides where the gear stands that its second step meshes
        // with; the others are put in turned by as many teeth of their first step as it takes.
        if let Some(Partner::Meshes(step)) = gear.partner
            && matches!(profile.gears[step].partner, Some(Partner::Fixed(_)))
        {
            let placed = all[starts[index]];
            for copy in 1..profile.gears[step].count as usize {
                let own = &mut all[starts[step] + copy];
                engage(own, &placed);
                mark_tooth_nearest(own, base);
            }
        }
    }
    all
}

/// Turns `follower` so that it meshes with `other`, and sizes it to reach if it is internal.
///
/// Let a be where the line of centres cuts the teeth of one gear, in pitches past the middle of
/// a tooth, and b the same for the other, both counted in the gear's own sense of rotation. A
/// tooth of one must face a space of the other. Two external gears count in opposite senses
/// along the common pitch line, so a + b = ½ (mod 1); an external and an internal one in the
/// same sense, so a − b = ½ (mod 1).
fn engage(follower: &mut Standing, other: &Standing) {
    let (dx, dy) = (
        follower.centre.0 - other.centre.0,
        follower.centre.1 - other.centre.1,
    );
    let distance = dx.hypot(dy);
    let away = dy.atan2(dx);
    let towards = away + PI;
    // Contact lies on the line of centres: between two external gears, beyond the centre of
    // the smaller one where the other is internal.
    let (seen_from_other, seen_from_follower) = match (other.internal, follower.internal) {
        (false, false) => (away, towards),
        (true, _) => (away, away),
        (false, true) => (towards, towards),
    };
    if follower.internal {
        // Tooth counts that need profile shift leave a gap or an overlap of nominal pitch
        // circles; the working ones always touch.
        follower.pitch = distance + other.pitch;
    }
    let past = f64::from(other.teeth) * (seen_from_other - other.lead) / TAU;
    let own = if other.internal == follower.internal {
        0.5 - past
    } else {
        past - 0.5
    };
    follower.lead = seen_from_follower - TAU * own / f64::from(follower.teeth);
}

/// Chooses the tooth nearest to `direction` as the marked one.
fn mark_tooth_nearest(standing: &mut Standing, direction: f64) {
    let step = TAU / f64::from(standing.teeth);
    standing.lead += ((direction - standing.lead) / step).round() * step;
}
