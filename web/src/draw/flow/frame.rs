//! Where boxes and rails are: the extents of everything, fitted to the room there is.

use levertrain_core::Train;
use levertrain_core::short_sort::sort_short_by;

use super::arrange::{Arrangement, Course, Way};
use super::block::{Block, blocks};
use super::network::Network;
use super::sheet::{BEND, EDGE, Sheet};

/// Least distance between boxes, and between a box and an end.
const GAP: f64 = 26.0;
/// The same where room is short: an arrow head still fits.
const DENSE_GAP: f64 = 14.0;
/// From the boxes to the nearest rail: room for an arrow head on every leg.
const LEG: f64 = 24.0;
/// Between rails: room for a bend.
const LANE_GAP: f64 = BEND + 10.0;
/// The same on a narrow page: a bend still fits.
const DENSE_LEG: f64 = 15.0;
const DENSE_LANE_GAP: f64 = BEND + 3.0;
/// Room for the words at both ends.
const END_WORDS: f64 = 54.0;
const DENSE_END_WORDS: f64 = 46.0;
const END_LINE: f64 = 22.0;

/// Everything's place along and across the line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Frame {
    /// How it lies on the page.
    pub sheet: Sheet,
    /// Extents along and across the line.
    pub size: (f64, f64),
    /// The least extents that would do.
    pub least: (f64, f64),
    /// Distance of the middle of the line from the edge before it.
    pub middle: f64,
    /// The boxes, in line.
    pub blocks: Vec<Block>,
    /// Where each box starts.
    pub starts: Vec<f64>,
    /// Where bands begin after the word "Input", and end before "Output".
    pub ends: [f64; 2],
    /// For each way that is a rail, the outer side of the rail, measured across.
    pub rails: Vec<Option<f64>>,
}

/// The power in a shaft between two stops, or between a stop and an end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    /// Power that flows towards the output's side; negative when it runs back.
    pub flow: f64,
}

impl Frame {
    /// Fits a network to a page: `room` is what there is along and across the line.
    pub(super) fn of(
        train: &Train,
        network: &Network,
        arrangement: &Arrangement,
        sheet: Sheet,
        room: (f64, f64),
    ) -> Self {
        let blocks = blocks(train, network, arrangement, sheet);
        let end = match (sheet.upright, sheet.dense) {
            (true, _) => END_LINE,
            (false, false) => END_WORDS,
            (false, true) => DENSE_END_WORDS,
        };
        let total: f64 = blocks.iter().map(|block| block.along).sum();
        let gaps = (blocks.len() + 1) as f64;
        let gap = if sheet.dense { DENSE_GAP } else { GAP };
        let least_along = total + gaps * gap + 2.0 * end;
        let gap = gap + ((room.0 - least_along) / gaps).max(0.0);
        let mut along = end;
        let starts = blocks
            .iter()
            .map(|block| {
                let start = along + gap;
                along = start + block.along;
                start
            })
            .collect();

        let (leg, lane_gap) = if sheet.upright && sheet.dense {
            (DENSE_LEG, DENSE_LANE_GAP)
        } else {
            (LEG, LANE_GAP)
        };
        let mut rails = vec![None; arrangement.ways.len()];
        let mut reach = [0.0; 2];
        for (side, reach) in reach.iter_mut().enumerate() {
            let extents = blocks.iter().map(|block| block.across[side]);
            *reach = extents.fold(0.0, f64::max);
            for lane in 0.. {
                let in_lane = |way: &Way| {
                    way.course
                        == Course::Rail {
                            before: side == 0,
                            lane,
                        }
                };
                let of_lane = arrangement.ways.iter().filter(|way| in_lane(way));
                let widest = of_lane
                    .flat_map(|way| stretches(network, way, &order(way, &blocks)))
                    .map(|stretch| sheet.width(stretch.flow))
                    .reduce(f64::max);
                let Some(widest) = widest else { break };
                *reach += widest + if lane == 0 { leg } else { lane_gap };
                for (rail, way) in rails.iter_mut().zip(&arrangement.ways) {
                    if in_lane(way) {
                        *rail = Some(if side == 0 { -*reach } else { *reach });
                    }
                }
            }
            *reach += EDGE;
        }
        let least = (least_along, reach[0] + reach[1]);
        let size = (room.0.max(least.0), room.1.max(least.1));
        Self {
            sheet,
            size,
            least,
            middle: reach[0] + (size.1 - least.1) / 2.0,
            blocks,
            starts,
            ends: [end, size.0 - end],
            rails,
        }
    }
}

/// The stops of a way in order along the line: those at one box by where they meet it.
pub(super) fn order(way: &Way, blocks: &[Block]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..way.stops.len()).collect();
    let along = |stop: usize| {
        let stop = way.stops[stop];
        blocks[stop.place].meetings[stop.port].spot.along
    };
    sort_short_by(&mut order, |&a, &b| {
        let places = way.stops[a].place.cmp(&way.stops[b].place);
        places.then(along(a).total_cmp(&along(b)))
    });
    order
}

/// The power along a way: before its first stop, between stops, after its last.
pub(super) fn stretches(network: &Network, way: &Way, order: &[usize]) -> Vec<Stretch> {
    let mut flow = f64::from(u8::from(way.shaft == network.input));
    let mut stretches = vec![Stretch { flow }];
    for &stop in order {
        flow -= way.stops[stop].power;
        stretches.push(Stretch { flow });
    }
    stretches
}
