//! The power flow of a combination: bands as wide as the power they carry.
//!
//! Sets and applied clutches stand in line from the input to the output; the shafts between
//! them are bands, straight to a neighbour or along a rail beside the line. `network.rs` says
//! what flows where, `arrange.rs` who stands where, `block.rs` and `frame.rs` how large
//! everything is, `ribbon.rs` turns it into bands, `marks.rs` into marks. Power that goes
//! round inside the train is visibly a loop, in an ink of its own.

mod arrange;
mod block;
mod clutch_box;
mod frame;
mod marks;
mod network;
mod ribbon;
mod saying;
mod set_box;
mod sheet;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;

use levertrain_core::{Combination, Duty};

use super::scene::Scene;
use crate::motion::live::Live;
use crate::motion::powers::Powers;
use arrange::Arrangement;
use frame::Frame;
use network::Network;
use sheet::Sheet;

/// Widths of a band with all the input's power that are tried, in CSS pixels, from left to right
/// and downwards; the first that fits is taken.
const UNITS_FLAT: [f64; 8] = [54.0, 46.0, 38.0, 32.0, 26.0, 20.0, 16.0, 13.0];
const UNITS_UPRIGHT: [f64; 9] = [46.0, 38.0, 32.0, 26.0, 20.0, 16.0, 12.0, 8.0, 6.0];
/// No band is wider than this in CSS pixels, so that boxes stay larger than bands.
const WIDEST: f64 = 76.0;
/// The width that the preferred height is for.
const COMFORTABLE: f64 = 26.0;
/// Height of a drawing that only says why there is no flow.
const SENTENCE: f64 = 120.0;

/// The height in CSS pixels that suits a width: that of the tallest of what is applied and of
/// the ranges that lie the same way, so that changing the range seldom moves the page.
pub fn height(live: &Live<'_>, width: f64) -> f64 {
    let ranges = 0..live.train.scenario().ranges.len();
    let sets = ranges.map(|range| live.train.range(range));
    let applied = needed(live, &live.train.solve(live.applied), width);
    let lies_upright = applied.is_some_and(|(upright, _)| upright);
    sets.filter_map(|set| {
        let combination = live.train.settle(set, Duty::Drive).combination;
        needed(live, &combination, width)
    })
    .filter(|(upright, _)| *upright == lies_upright)
    .chain(applied)
    .map(|(_, height)| height)
    .fold(SENTENCE, f64::max)
    .ceil()
}

/// Whether the flow of a combination runs downwards on a page of this width, and its height.
fn needed(live: &Live<'_>, combination: &Combination<'_>, width: f64) -> Option<(bool, f64)> {
    let powers = Powers::of(combination).ok()?;
    let network = Network::of(combination, &powers);
    let arrangement = Arrangement::of(&network);
    let below = marks::caption(live.train, &network, width).height();
    let mut smallest = None;
    for sheet in candidates(&network).filter(|sheet| sheet.unit <= COMFORTABLE) {
        let frame = Frame::of(live.train, &network, &arrangement, sheet, (0.0, 0.0));
        let (least, height) = sheet.page(frame.least);
        smallest = Some((sheet.upright, height + below));
        if least <= width {
            break;
        }
    }
    smallest
}

/// Draws the flow of what is applied, on a page of this width and height in CSS pixels. The
/// drawing grows beyond what cannot hold it.
pub fn scene(live: &Live<'_>, (width, height): (f64, f64)) -> Scene {
    let combination = live.train.solve(live.applied);
    let powers = match Powers::of(&combination) {
        Ok(powers) => powers,
        Err(why) => {
            let sentence = saying::of_nothing(&combination, why);
            return marks::sentence(&sentence, (width, height));
        }
    };
    let network = Network::of(&combination, &powers);
    let arrangement = Arrangement::of(&network);
    let caption = marks::caption(live.train, &network, width);
    let frame = fit(
        live,
        &network,
        &arrangement,
        (width, height - caption.height()),
    );
    marks::draw(live, &network, &arrangement, &frame, &caption)
}

/// The frame with the widest bands that fits, from left to right if any does.
fn fit(live: &Live<'_>, network: &Network, arrangement: &Arrangement, room: (f64, f64)) -> Frame {
    let mut smallest = None;
    for sheet in candidates(network) {
        let frame = Frame::of(live.train, network, arrangement, sheet, sheet.line(room));
        let least = sheet.page(frame.least);
        if least.0 <= room.0 && least.1 <= room.1 {
            return frame;
        }
        smallest = Some(frame);
    }
    smallest.unwrap_or_else(|| {
        let sheet = Sheet {
            upright: true,
            dense: true,
            unit: UNITS_UPRIGHT[UNITS_UPRIGHT.len() - 1],
        };
        Frame::of(live.train, network, arrangement, sheet, sheet.line(room))
    })
}

/// Ways to lay the drawing on the page, the best first.
fn candidates(network: &Network) -> impl Iterator<Item = Sheet> {
    let largest = network.ports().map(|(_, port)| port.power.abs());
    let most = WIDEST / largest.fold(1.0, f64::max);
    let sheet = move |upright: bool, dense: bool| {
        move |unit: f64| Sheet {
            upright,
            dense,
            unit: unit.min(most),
        }
    };
    let flat = UNITS_FLAT.into_iter().map(sheet(false, false));
    let dense = UNITS_FLAT.into_iter().map(sheet(false, true));
    let upright = UNITS_UPRIGHT.into_iter().map(sheet(true, false));
    let narrow = UNITS_UPRIGHT.into_iter().map(sheet(true, true));
    flat.chain(dense).chain(upright).chain(narrow)
}
