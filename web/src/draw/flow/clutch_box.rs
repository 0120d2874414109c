//! What is written in the box of a clutch, and where.

use levertrain_core::Train;

use super::block::{Block, INSET, LINE, PortFacts, SIZE, Side, TWO_LINES, label};
use super::network::Node;
use super::saying;
use super::sheet::{Sheet, spot};
use crate::draw::scene::{Align, Ink};
use crate::draw::text;

impl Block {
    /// The box of a clutch: its plates, its name, its power.
    pub(super) fn clutch(&mut self, train: &Train, node: &Node, ports: &[PortFacts], sheet: Sheet) {
        const PLATES: f64 = 24.0;
        let name = node.name(train);
        let share = saying::share(node.ports[0].power);
        let words = text::width(&name, SIZE, true).max(text::width(&share, SIZE, true));
        let slots = ports.iter().map(|port| {
            let straight = matches!(port.side, Side::Start | Side::End);
            let half = (port.width / 2.0 + 4.0) * f64::from(u8::from(straight));
            port.across.abs() + half
        });
        let slots = slots.fold(0.0, f64::max);
        let rails = Self::room(ports, sheet);
        let (plates, words_at, gap) = if sheet.upright {
            self.along = rails.max(TWO_LINES + 8.0);
            let half = ((words + PLATES) / 2.0 + INSET).max(slots);
            self.across = [half; 2];
            let middle = self.along / 2.0;
            let left = -(words + PLATES) / 2.0;
            let plates = spot(middle, left + 9.0);
            (
                plates,
                spot(middle, left + PLATES + words / 2.0),
                (1.0, 0.0),
            )
        } else {
            self.along = rails.max(words + 2.0 * INSET);
            let half = ((TWO_LINES + PLATES) / 2.0 + 4.0).max(slots);
            self.across = [half; 2];
            let top = -(TWO_LINES + PLATES) / 2.0;
            let middle = self.along / 2.0;
            let plates = spot(middle, top + PLATES / 2.0 - 1.0);
            (plates, spot(middle, top + PLATES + LINE), (0.0, 1.0))
        };
        self.meet(ports, (0.0, self.along), sheet);
        self.plates = Some(plates);
        let lines = [
            label(&name, SIZE, true, Ink::Text, Align::Centre),
            label(&share, SIZE, true, Ink::Text, Align::Centre),
        ];
        for (line, side) in lines.into_iter().zip([-0.5, 0.5]) {
            let along = words_at.along + side * LINE * gap.0;
            let across = words_at.across + side * LINE * gap.1;
            self.texts.push((spot(along, across), line));
        }
    }
}
