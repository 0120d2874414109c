//! The bands: their straight runs and their bends.

use std::f64::consts::FRAC_PI_2;

use levertrain_core::sin_cos;

use super::arrange::{Arrangement, Course, Way};
use super::block::Side;
use super::frame::{Frame, order, stretches};
use super::network::Network;
use super::sheet::{BEND, Spot, spot};

/// What is less than this many input powers is nothing: the rounding of a sum.
const NOTHING: f64 = 1e-9;

/// A band with parallel sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Run {
    /// Middle of the end that the power comes from.
    pub from: Spot,
    /// Middle of the end that it goes to.
    pub to: Spot,
    /// Width in CSS pixels.
    pub width: f64,
    /// Whether its power goes round.
    pub looped: bool,
}

/// A bend from a rail into a leg, or back.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bend {
    /// Its outline.
    pub outline: Vec<Spot>,
    /// Whether its power goes round.
    pub looped: bool,
}

/// All bands of a shaft.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ribbon {
    /// Index of the shaft.
    pub shaft: usize,
    /// Bands between a rail and a box, or from box to box: one for each stop, in their order;
    /// none where a straight band has been counted at its other stop.
    pub legs: Vec<Run>,
    /// Bands along a rail.
    pub rails: Vec<Run>,
    /// What joins them.
    pub bends: Vec<Bend>,
    /// Where the words of the input and of the output stand, across.
    pub ends: [Option<f64>; 2],
    /// How far out it lies; what lies further out passes over.
    pub lane: usize,
}

impl Ribbon {
    /// The bands of every shaft.
    pub(super) fn all(network: &Network, arrangement: &Arrangement, frame: &Frame) -> Vec<Self> {
        let ways = arrangement.ways.iter().zip(&frame.rails);
        ways.map(|(way, rail)| match rail {
            Some(outer) => Self::railed(network, arrangement, frame, way, *outer),
            None => Self::straight(network, arrangement, frame, way),
        })
        .collect()
    }

    fn empty(way: &Way) -> Self {
        Self {
            shaft: way.shaft,
            legs: Vec::new(),
            rails: Vec::new(),
            bends: Vec::new(),
            ends: [None; 2],
            lane: match way.course {
                Course::Straight { .. } => 0,
                Course::Rail { lane, .. } => lane + 1,
            },
        }
    }

    fn straight(network: &Network, arrangement: &Arrangement, frame: &Frame, way: &Way) -> Self {
        let mut ribbon = Self::empty(way);
        let Some(first) = way.stops.first() else {
            return ribbon;
        };
        let (_, meeting) = meeting(frame, first.place, first.port);
        let across = meeting.across;
        let (mut start, mut end) = (frame.ends[0], frame.ends[1]);
        for stop in &way.stops {
            let (side, meeting) = self::meeting(frame, stop.place, stop.port);
            match side {
                Side::End => start = meeting.along,
                _ => end = meeting.along,
            }
        }
        if way.shaft == network.input {
            ribbon.ends[0] = Some(across);
        }
        if way.shaft == network.output {
            ribbon.ends[1] = Some(across);
        }
        let (side, _) = self::meeting(frame, first.place, first.port);
        // Power into a box at its start runs on; so does power out of it at its end.
        let on = (first.power > 0.0) == (side == Side::Start);
        let (from, to) = if on { (start, end) } else { (end, start) };
        ribbon.legs.push(Run {
            from: spot(from, across),
            to: spot(to, across),
            width: frame.sheet.width(first.power),
            looped: is_looped(network, arrangement, first.place, first.port),
        });
        ribbon
    }

    fn railed(
        network: &Network,
        arrangement: &Arrangement,
        frame: &Frame,
        way: &Way,
        outer: f64,
    ) -> Self {
        let mut ribbon = Self::empty(way);
        let order = order(way, &frame.blocks);
        let flows: Vec<f64> = stretches(network, way, &order)
            .iter()
            .map(|stretch| stretch.flow)
            .collect();
        let inward = if outer < 0.0 { 1.0 } else { -1.0 };
        let looped: Vec<bool> = order
            .iter()
            .map(|&stop| {
                let stop = way.stops[stop];
                is_looped(network, arrangement, stop.place, stop.port)
            })
            .collect();
        let mut from = frame.ends[0];
        for (index, &stop) in order.iter().enumerate() {
            let stop = way.stops[stop];
            let (_, at_box) = meeting(frame, stop.place, stop.port);
            let junction = Junction {
                rail: Rail { outer, inward },
                along: at_box.along,
                arms: [flows[index], flows[index + 1]]
                    .map(|flow| if flow.abs() < NOTHING { 0.0 } else { flow }),
                leg: stop.power,
                unit: frame.sheet.unit,
            };
            let parts = junction.parts();
            let round =
                [index, index + 1].map(|gap| looped_between(way, &order, &looped, gap, flows[gap]));
            ribbon.rail(
                &junction.rail,
                (from, junction.arm_end(0)),
                flows[index],
                round[0],
                frame,
            );
            from = junction.arm_end(1);
            if parts.through > 0.0 {
                // The strand that goes on passes the bend.
                let width = frame.sheet.width(parts.through);
                let across = outer + inward * width / 2.0;
                let [start, end] = [0, 1].map(|arm| spot(junction.arm_end(arm), across));
                ribbon.bends.push(Bend {
                    outline: bar(start, end, width),
                    looped: round[0] && round[1],
                });
            }
            ribbon.turn(&junction, at_box.across, looped[index], round);
        }
        let last = order.len();
        let end = (from, frame.ends[1]);
        let rail = Rail { outer, inward };
        ribbon.rail(&rail, end, flows[last], false, frame);
        let middle = Some(outer + inward * frame.sheet.unit / 2.0);
        if way.shaft == network.input {
            ribbon.ends[0] = middle;
        }
        if way.shaft == network.output {
            ribbon.ends[1] = middle;
        }
        ribbon
    }

    /// A band along the rail, its outer side on the rail's outer side.
    fn rail(
        &mut self,
        rail: &Rail,
        (start, end): (f64, f64),
        flow: f64,
        looped: bool,
        frame: &Frame,
    ) {
        if flow.abs() < NOTHING || end <= start {
            return;
        }
        let width = frame.sheet.width(flow);
        let across = rail.outer + rail.inward * width / 2.0;
        let (from, to) = if flow > 0.0 {
            (start, end)
        } else {
            (end, start)
        };
        self.rails.push(Run {
            from: spot(from, across),
            to: spot(to, across),
            width,
            looped,
        });
    }

    /// The bends of a junction and the leg from it to its box.
    fn turn(&mut self, junction: &Junction, at_box: f64, looped: bool, round: [bool; 2]) {
        let Junction {
            rail,
            along,
            arms,
            leg,
            unit,
        } = *junction;
        let parts = junction.parts();
        let width = leg.abs() * unit;
        let mut nearest = rail.outer;
        for (arm, part) in parts.bending.into_iter().enumerate() {
            if part == 0.0 {
                continue;
            }
            // Towards the arm along the line.
            let away = if arm == 0 { -1.0 } else { 1.0 };
            let part = part * unit;
            let side = along + away * width / 2.0;
            let near = arms[arm].abs() * unit;
            let centre = spot(side + away * BEND, rail.outer + rail.inward * (near + BEND));
            self.bends.push(Bend {
                outline: quarter(centre, (-away, -rail.inward), (BEND, BEND + part)),
                looped: looped && round[arm],
            });
            if (centre.across - rail.outer).abs() > (nearest - rail.outer).abs() {
                nearest = centre.across;
            }
            // Where the two bends of a leg end at different depths, the shallower one is led on.
            let strand = spot(side - away * part / 2.0, centre.across);
            self.bends.push(Bend {
                outline: bar(strand, spot(strand.along, at_box), part),
                looped: looped && round[arm],
            });
        }
        // The leg itself is drawn from where both strands are in it.
        let (from, to) = (spot(along, nearest), spot(along, at_box));
        let (from, to) = if leg > 0.0 { (from, to) } else { (to, from) };
        self.legs.push(Run {
            from,
            to,
            width,
            looped,
        });
    }
}

/// A rail's outer side, and the way from there to the line.
#[derive(Debug, Clone, Copy)]
struct Rail {
    outer: f64,
    inward: f64,
}

/// Where a leg leaves a rail.
#[derive(Debug, Clone, Copy)]
struct Junction {
    rail: Rail,
    along: f64,
    /// Power along the rail towards the output, before and after the leg.
    arms: [f64; 2],
    /// Power from the rail into the leg.
    leg: f64,
    unit: f64,
}

/// How a junction divides; powers without sign.
struct Parts {
    through: f64,
    /// Between the leg and either arm.
    bending: [f64; 2],
}

impl Junction {
    /// Three arms divide in one way only: the one that flows against the other two feeds both.
    fn parts(&self) -> Parts {
        let [before, after] = self.arms;
        let through = if before * after > 0.0 {
            before.abs().min(after.abs())
        } else {
            0.0
        };
        let bending = self.arms.map(|arm| {
            let rest = arm.abs() - through;
            if rest < NOTHING { 0.0 } else { rest }
        });
        Parts { through, bending }
    }

    /// Where the straight band of an arm ends: before the bend, if there is one.
    fn arm_end(&self, arm: usize) -> f64 {
        let away = if arm == 0 { -1.0 } else { 1.0 };
        let bends = self.parts().bending[arm] > 0.0;
        let reach = self.leg.abs() * self.unit / 2.0 + BEND;
        self.along + if bends { away * reach } else { 0.0 }
    }
}

/// Whether power that goes round passes a rail before its stop number `index`: it comes from a
/// looped stop upstream and goes to one downstream.
fn looped_between(way: &Way, order: &[usize], looped: &[bool], index: usize, flow: f64) -> bool {
    let stops = |range: std::ops::Range<usize>, into: bool| {
        range
            .into_iter()
            .any(|nth| looped[nth] && (way.stops[order[nth]].power > 0.0) == into)
    };
    let on = flow > 0.0;
    stops(0..index, !on) && stops(index..order.len(), on)
}

fn is_looped(network: &Network, arrangement: &Arrangement, place: usize, port: usize) -> bool {
    network.nodes[arrangement.line[place]].ports[port].looped
}

/// Side and place at which a port meets its box.
fn meeting(frame: &Frame, place: usize, port: usize) -> (Side, Spot) {
    let meeting = frame.blocks[place].meetings[port];
    let place = spot(
        frame.starts[place] + meeting.spot.along,
        meeting.spot.across,
    );
    (meeting.side, place)
}

/// A quarter of a ring about `centre`, towards `(along, across)`.
fn quarter(centre: Spot, (along, across): (f64, f64), (inner, outer): (f64, f64)) -> Vec<Spot> {
    const STEPS: usize = 10;
    let on = |radius: f64, step: usize| {
        let (sine, cosine) = sin_cos(FRAC_PI_2 * step as f64 / STEPS as f64);
        spot(
            centre.along + along * radius * sine,
            centre.across + across * radius * cosine,
        )
    };
    let out = (0..=STEPS).map(|step| on(outer, step));
    let back = (0..=STEPS).rev().map(|step| on(inner, step));
    out.chain(back).collect()
}

/// The corners of a straight band.
pub(super) fn bar(from: Spot, to: Spot, width: f64) -> Vec<Spot> {
    let (da, dc) = (to.along - from.along, to.across - from.across);
    let length = da.hypot(dc).max(f64::MIN_POSITIVE);
    let (sa, sc) = (-dc / length * width / 2.0, da / length * width / 2.0);
    vec![
        spot(from.along + sa, from.across + sc),
        spot(to.along + sa, to.across + sc),
        spot(to.along - sa, to.across - sc),
        spot(from.along - sa, from.across - sc),
    ]
}
