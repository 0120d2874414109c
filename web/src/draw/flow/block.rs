//! How large the box of a node is, where bands meet it, and what is written in it.

use levertrain_core::Train;
use levertrain_core::short_sort::sort_short_by_key;

use super::arrange::{Arrangement, Course};
use super::network::{Network, Place};
use super::saying;
use super::set_box::Zones;
use super::sheet::{BEND, Sheet, Spot, spot};
use crate::draw::scene::{Align, Ink, Label, at};
use crate::draw::text;

/// Font size of what is written at ports.
pub(super) const SIZE: f64 = 12.5;
/// Font size of the names of nodes.
pub(super) const NAME_SIZE: f64 = 14.0;
pub(super) const LINE: f64 = 15.5;
pub(super) const NAME_LINE: f64 = 20.0;
pub(super) const TWO_LINES: f64 = 2.0 * LINE;
/// Between a text and the side of its box.
pub(super) const INSET: f64 = 6.0;
/// Room for the ground sign before what is said of a held member.
pub(super) const SIGN: f64 = 14.0;

/// The side of a box that a band meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// Towards the input.
    Start,
    /// Towards the output.
    End,
    /// Above, or to the left where the line runs downwards.
    Before,
    /// Below, or to the right.
    After,
}

/// Where a band meets a box; `spot.along` counts from the start of the box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Meeting {
    /// The side.
    pub side: Side,
    /// The middle of the band.
    pub spot: Spot,
}

/// A box and what is in it; spots count from its start, at the middle of the line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Block {
    /// Index of its node.
    pub node: usize,
    /// Extent along the line.
    pub along: f64,
    /// Extents across it, on either side of its middle.
    pub across: [f64; 2],
    /// Where the bands of its ports meet it.
    pub meetings: Vec<Meeting>,
    /// What is written, each at its spot.
    pub texts: Vec<(Spot, Label)>,
    /// Where ground signs stand: the middle of the words they stand before, and the width of
    /// these.
    pub grounds: Vec<(Spot, f64)>,
    /// Where the plates of a clutch are drawn.
    pub plates: Option<Spot>,
}

/// What is known of a port before its box is measured.
pub(super) struct PortFacts {
    pub side: Side,
    /// Middle across of a straight band.
    pub across: f64,
    pub words: Option<[String; 2]>,
    pub width: f64,
    /// Orders the ports of one side so that their bands do not cross at the box.
    rank: (u8, isize, usize),
}

impl PortFacts {
    pub(super) fn text_width(&self) -> f64 {
        let Some([name, share]) = &self.words else {
            return 0.0;
        };
        text::width(name, SIZE, false).max(text::width(share, SIZE, true))
    }

    /// What a band at a rail's side takes along the box.
    fn room(&self, sheet: Sheet) -> f64 {
        let words = match (&self.words, sheet.upright) {
            (None, _) => 0.0,
            (Some(_), true) => TWO_LINES + 4.0,
            (Some(_), false) if sheet.dense => self.text_width() + 4.0,
            (Some(_), false) => self.text_width() + 10.0,
        };
        words.max(self.width + 2.0 * BEND + 4.0)
    }
}

/// The boxes of all nodes, in line. Sets are alike in their extents across.
pub(super) fn blocks(
    train: &Train,
    network: &Network,
    arrangement: &Arrangement,
    sheet: Sheet,
) -> Vec<Block> {
    let ports: Vec<Vec<PortFacts>> = (0..arrangement.line.len())
        .map(|place| port_facts(train, network, arrangement, place, sheet))
        .collect();
    let nodes = arrangement.line.iter().map(|&node| &network.nodes[node]);
    let sets = nodes.clone().zip(&ports);
    let sets = sets.filter(|(node, _)| matches!(node.place, Place::Set(_)));
    let zones = Zones::of(train, sets, sheet);
    arrangement
        .line
        .iter()
        .zip(&ports)
        .map(|(&index, ports)| {
            let node = &network.nodes[index];
            let mut block = Block {
                node: index,
                along: 0.0,
                across: [0.0; 2],
                meetings: Vec::new(),
                texts: Vec::new(),
                grounds: Vec::new(),
                plates: None,
            };
            match node.place {
                Place::Set(coupling) if sheet.upright => {
                    block.upright_set(train, node, coupling, ports, &zones, sheet);
                }
                Place::Set(coupling) => block.flat_set(train, node, coupling, ports, &zones, sheet),
                Place::Clutch(_) => block.clutch(train, node, ports, sheet),
            }
            block
        })
        .collect()
}

/// What the words of a straight band take across the line.
pub(super) const fn straight_room(sheet: Sheet) -> f64 {
    match (sheet.upright, sheet.dense) {
        (true, _) => 84.0,
        (false, true) => 2.0 * TWO_LINES + 4.0,
        (false, false) => TWO_LINES + 4.0,
    }
}

fn port_facts(
    train: &Train,
    network: &Network,
    arrangement: &Arrangement,
    place: usize,
    sheet: Sheet,
) -> Vec<PortFacts> {
    let node = &network.nodes[arrangement.line[place]];
    let widest = |slots: usize| {
        // All that lie side by side keep the same distance.
        let straight = arrangement
            .ways
            .iter()
            .filter(|way| matches!(way.course, Course::Straight { of, .. } if of == slots));
        straight
            .flat_map(|way| &way.stops)
            .map(|stop| sheet.width(stop.power))
            .fold(0.0, f64::max)
    };
    let facts = node.ports.iter().enumerate().filter_map(|(index, port)| {
        let way = arrangement
            .ways
            .iter()
            .find(|way| way.shaft == port.shaft)?;
        let starts = way.shaft != network.input && way.stops.first()?.place == place;
        let ends = way.shaft != network.output && way.stops.last()?.place == place;
        let is_set = matches!(node.place, Place::Set(_));
        let words = is_set.then(|| saying::of_port(train, node, port));
        let (side, across, rank) = match way.course {
            Course::Straight { slot, of } => {
                let side = if starts { Side::End } else { Side::Start };
                let pitch = straight_room(sheet).max(widest(of) + 8.0);
                let across = (slot as f64 - (of - 1) as f64 / 2.0) * pitch;
                (side, across, (0, 0, 0))
            }
            Course::Rail { before, lane } => {
                let side = if before { Side::Before } else { Side::After };
                let lane = lane as isize;
                // What turns back stands first, what goes on last; of these the ones with
                // nearer rails stand outside.
                let rank = match (starts, ends) {
                    (false, true) => (0, lane, index),
                    (true, false) => (2, -lane, index),
                    _ => (1, 0, index),
                };
                (side, 0.0, rank)
            }
        };
        Some(PortFacts {
            side,
            across,
            words,
            width: sheet.width(port.power),
            rank,
        })
    });
    facts.collect()
}

/// Width of what is said of a member without power, with its sign.
pub(super) fn note_width(words: &str) -> f64 {
    text::width(words, SIZE, false) + SIGN
}

/// A text of a box, to be centred on its spot or to stand against a side.
pub(super) fn label(words: &str, size: f64, bold: bool, ink: Ink, align: Align) -> Label {
    Label {
        at: at(0.0, 0.0),
        text: words.to_owned(),
        size,
        bold,
        ink,
        align,
        plate: false,
    }
}

impl Block {
    /// Sets the ports of a side along it, in the order of their ranks, spread over `along`.
    fn spread(
        ports: &[PortFacts],
        side: Side,
        along: f64,
        sheet: Sheet,
    ) -> impl Iterator<Item = (usize, f64)> {
        let mut order: Vec<usize> = (0..ports.len())
            .filter(|&port| ports[port].side == side)
            .collect();
        sort_short_by_key(&mut order, |&port| ports[port].rank);
        let rooms: Vec<f64> = order.iter().map(|&port| ports[port].room(sheet)).collect();
        let spare = (along - rooms.iter().sum::<f64>()) / (rooms.len() + 1) as f64;
        let mut at = 0.0;
        order.into_iter().zip(rooms).map(move |(port, room)| {
            let middle = at + spare + room / 2.0;
            at += spare + room;
            (port, middle)
        })
    }

    /// What the fuller side of rails takes along the box.
    pub(super) fn room(ports: &[PortFacts], sheet: Sheet) -> f64 {
        let side = |side: Side| -> f64 {
            let ports = ports.iter().filter(|port| port.side == side);
            ports.map(|port| port.room(sheet)).sum()
        };
        side(Side::Before).max(side(Side::After))
    }

    /// Where bands meet the box, once its extents are known; `rails` is where along the box
    /// the sides of rails begin and how long they are.
    pub(super) fn meet(&mut self, ports: &[PortFacts], rails: (f64, f64), sheet: Sheet) {
        self.meetings = ports
            .iter()
            .map(|port| Meeting {
                side: port.side,
                spot: match port.side {
                    Side::Start => spot(0.0, port.across),
                    Side::End => spot(self.along, port.across),
                    Side::Before => spot(0.0, -self.across[0]),
                    Side::After => spot(0.0, self.across[1]),
                },
            })
            .collect();
        for side in [Side::Before, Side::After] {
            for (port, along) in Self::spread(ports, side, rails.1, sheet) {
                self.meetings[port].spot.along = rails.0 + along;
            }
        }
    }
}
