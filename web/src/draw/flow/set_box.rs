//! What is written in the box of a set, and where.

use levertrain_core::Train;

use super::block::{
    Block, INSET, LINE, NAME_LINE, NAME_SIZE, PortFacts, SIGN, SIZE, Side, TWO_LINES, label,
    note_width, straight_room,
};
use super::network::{Node, Place};
use super::saying;
use super::sheet::{Sheet, Spot, spot};
use crate::draw::scene::{Align, Ink, Label};
use crate::draw::text;

/// What the boxes of all sets have in common.
pub(super) struct Zones {
    /// Room for words at the sides of rails.
    rails: [f64; 2],
    /// Half the room for straight bands.
    middle: f64,
    /// Room for what is said of members without power.
    notes: f64,
    /// Extent across where the line runs downwards.
    upright: f64,
}

impl Zones {
    /// What the boxes of these sets have in common.
    pub(super) fn of<'a>(
        train: &Train,
        sets: impl Iterator<Item = (&'a Node, &'a Vec<PortFacts>)>,
        sheet: Sheet,
    ) -> Self {
        let mut zones = Self {
            rails: [INSET; 2],
            middle: 0.0,
            notes: INSET,
            upright: 0.0,
        };
        let mut words = [0.0_f64; 2];
        for (node, ports) in sets {
            for port in ports {
                let half = straight_room(sheet) / 2.0;
                let reach = port.across.abs() + half.max(port.width / 2.0 + 4.0);
                match port.side {
                    Side::Start | Side::End => zones.middle = zones.middle.max(reach),
                    Side::Before | Side::After => {
                        let side = usize::from(port.side == Side::After);
                        zones.rails[side] = TWO_LINES + 8.0;
                        words[side] = words[side].max(port.text_width() + INSET);
                    }
                }
            }
            let Place::Set(coupling) = node.place else {
                continue;
            };
            let notes = saying::of_still(train, node, coupling);
            zones.notes = zones.notes.max(notes.len() as f64 * TWO_LINES + 4.0);
            let name = text::width(&node.name(train), NAME_SIZE, true);
            let notes = notes.iter().map(|(words, _)| note_width(&words.join(" ")));
            let needed = notes.fold(name, f64::max) + 2.0 * INSET;
            zones.upright = zones.upright.max(needed);
        }
        zones.upright = zones
            .upright
            .max(words[0] + words[1] + 2.0 * INSET)
            .max(2.0 * zones.middle);
        zones
    }
}

/// The two lines of a port.
fn port_labels([name, share]: &[String; 2], align: Align) -> [Label; 2] {
    [
        label(name, SIZE, false, Ink::Text, align),
        label(share, SIZE, true, Ink::Text, align),
    ]
}

impl Block {
    /// The box of a set on a line from left to right.
    pub(super) fn flat_set(
        &mut self,
        train: &Train,
        node: &Node,
        coupling: usize,
        ports: &[PortFacts],
        zones: &Zones,
        sheet: Sheet,
    ) {
        let name = node.name(train);
        let notes = saying::of_still(train, node, coupling);
        let beside = |side: Side| {
            let widths = ports.iter().filter(|port| port.side == side);
            widths.map(PortFacts::text_width).fold(0.0, f64::max)
        };
        let beside = [beside(Side::Start), beside(Side::End)];
        let across = if sheet.dense {
            beside[0].max(beside[1]) + 2.0 * INSET
        } else {
            beside[0] + beside[1] + 4.0 * INSET
        };
        let note = notes
            .iter()
            .flat_map(|(words, _)| words)
            .map(|w| note_width(w));
        self.along = note
            .fold(text::width(&name, NAME_SIZE, true), f64::max)
            .max(Self::room(ports, sheet) - 2.0 * INSET)
            + 2.0 * INSET;
        self.along = self.along.max(across);
        self.across = [
            zones.rails[0] + NAME_LINE + zones.middle,
            zones.middle + zones.notes + zones.rails[1],
        ];
        self.meet(ports, (0.0, self.along), sheet);
        let middle = self.along / 2.0;
        self.texts.push((
            spot(middle, -zones.middle - NAME_LINE / 2.0),
            label(&name, NAME_SIZE, true, Ink::Text, Align::Centre),
        ));
        let row = if sheet.dense { LINE } else { 0.0 };
        for (port, meeting) in ports.iter().zip(&self.meetings) {
            let Some(words) = &port.words else { continue };
            let (along, middle, align) = match meeting.side {
                Side::Start => (INSET, port.across - row, Align::Left),
                Side::End => (self.along - INSET, port.across + row, Align::Right),
                Side::Before => (
                    meeting.spot.along,
                    LINE + 4.0 - self.across[0],
                    Align::Centre,
                ),
                Side::After => (
                    meeting.spot.along,
                    self.across[1] - LINE - 4.0,
                    Align::Centre,
                ),
            };
            let lines = port_labels(words, align);
            for (line, side) in lines.into_iter().zip([-0.5, 0.5]) {
                self.texts.push((spot(along, middle + side * LINE), line));
            }
        }
        let mut top = zones.middle;
        for (words, held) in &notes {
            for (index, line) in words.iter().enumerate() {
                let signed = *held && index == 0;
                let shift = if signed { SIGN / 2.0 } else { 0.0 };
                let place = spot(middle + shift, top + LINE * (index as f64 + 0.5));
                self.note(line, place, signed, Align::Centre);
            }
            top += TWO_LINES;
        }
    }

    /// The box of a set on a line that runs downwards.
    pub(super) fn upright_set(
        &mut self,
        train: &Train,
        node: &Node,
        coupling: usize,
        ports: &[PortFacts],
        zones: &Zones,
        sheet: Sheet,
    ) {
        let notes = saying::of_still(train, node, coupling);
        let has = |side: Side| ports.iter().any(|port| port.side == side);
        let room = |side: Side| if has(side) { TWO_LINES + 4.0 } else { 2.0 };
        let rails = Self::room(ports, sheet);
        let head = room(Side::Start) + NAME_LINE;
        let foot = head + rails + LINE * notes.len() as f64;
        self.along = foot + room(Side::End) + 4.0;
        self.across = [zones.upright / 2.0; 2];
        self.meet(ports, (head, rails), sheet);
        self.texts.push((
            spot(head - NAME_LINE / 2.0, 0.0),
            label(&node.name(train), NAME_SIZE, true, Ink::Text, Align::Centre),
        ));
        for (port, meeting) in ports.iter().zip(&self.meetings) {
            let Some(words) = &port.words else { continue };
            let (along, across, align) = match meeting.side {
                Side::Start => (LINE + 3.0, port.across, Align::Centre),
                Side::End => (self.along - LINE - 3.0, port.across, Align::Centre),
                Side::Before => (meeting.spot.along, INSET - self.across[0], Align::Left),
                Side::After => (meeting.spot.along, self.across[1] - INSET, Align::Right),
            };
            let lines = port_labels(words, align);
            for (line, side) in lines.into_iter().zip([-0.5, 0.5]) {
                self.texts.push((spot(along + side * LINE, across), line));
            }
        }
        for (index, (words, held)) in notes.iter().enumerate() {
            let along = head + rails + LINE * (index as f64 + 0.5);
            let shift = if *held { SIGN / 2.0 } else { 0.0 };
            self.note(&words.join(" "), spot(along, shift), *held, Align::Centre);
        }
    }

    /// A line on a member without power, with the ground sign before it where it is held.
    fn note(&mut self, words: &str, place: Spot, signed: bool, align: Align) {
        let label = label(words, SIZE, false, Ink::Quiet, align);
        if signed {
            // The sign stands to the left of the words, whichever way the line runs.
            let width = text::width(&label.text, label.size, label.bold);
            self.grounds.push((place, width));
        }
        self.texts.push((place, label));
    }
}
