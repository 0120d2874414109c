//! Laying a line with a clutch in it.

use super::Laying;
use super::canvas::{Dart, Holder};
use super::routing::Way;
use crate::draw::section::draft::clutches::clutch_places;
use crate::draw::section::grid::Node;
use crate::draw::section::plan::PackPlace;

/// How many places for a clutch are tried.
const PLACES: usize = 24;

/// A place for a clutch, with the nodes of its leads: that of the vertex whence the line comes first.
#[derive(Clone, Copy)]
struct Place {
    pack: PackPlace,
    leads: [Node; 2],
    middle: Node,
}

impl Laying {
    /// Puts a clutch between two vertices, from some darts each; the other may begin there.
    pub(super) fn fit(
        &mut self,
        joint: usize,
        element: usize,
        ends: [usize; 2],
        darts: [Option<&[Dart]>; 2],
    ) -> Option<()> {
        let own = self.embedding.bodies[ends[0]];
        let own_is_first = own == Some(self.train.ends(element)[0]);
        let board = self.tolled();
        let found = darts.map(|darts| {
            let mut found = self.search(&board, darts?);
            found.spread(u32::MAX);
            Some(found)
        });
        let cost = |place: &Place| {
            let mut cost = 0;
            for (found, lead) in found.iter().zip(place.leads) {
                cost += match found {
                    Some(found) => found.cost(lead)?,
                    None => 0,
                };
            }
            Some(cost)
        };
        let chosen = self.train.scenario().elements[element].gap();
        let places = clutch_places(&self.board, self.grid, chosen).into_iter();
        let places = places.map(|(_, [first, second], pack)| Place {
            pack,
            leads: match own_is_first {
                true => [first, second],
                false => [second, first],
            },
            // They are two columns apart.
            middle: (first + second) / 2,
        });
        let mut places: Vec<(u32, Place)> = places
            .filter_map(|place| Some((cost(&place)?, place)))
            .collect();
        // The cheapest first; to sort them all takes more code, which is downloaded.
        let mut cheapest = std::iter::from_fn(|| {
            let (at, _) = places
                .iter()
                .enumerate()
                .min_by_key(|(_, (cost, _))| cost)?;
            Some(places.swap_remove(at).1)
        });
        let mut tried = cheapest.by_ref().take(PLACES);
        let (place, (first, second)) =
            tried.find_map(|place| Some((place, self.ways_to(&place, darts)?)))?;
        self.packs[element] = Some(place.pack);
        for (vertex, way) in ends.into_iter().zip([Some(first), second]) {
            let Some(way) = way else {
                self.lay(vertex, &place.leads[1..]);
                continue;
            };
            self.lay(vertex, &way.nodes);
            let beside = self.spot(*way.nodes.first()?);
            self.canvas.step(beside, way.from.from, None);
        }
        self.board.wall(place.middle);
        let middle = self.spot(place.middle);
        self.canvas.hold(middle, Holder::Wall);
        self.canvas.join_at(middle, joint);
        for lead in place.leads {
            let lead = self.spot(lead);
            self.canvas.step(lead, middle, None);
        }
        Some(())
    }

    /// Ways to both leads that leave each other room; nothing for one that begins there.
    fn ways_to(
        &mut self,
        place: &Place,
        [near, far]: [Option<&[Dart]>; 2],
    ) -> Option<(Way, Option<Way>)> {
        let before = self.board.clone();
        self.board.wall(place.middle);
        self.board.wall(place.leads[1]);
        let first = near.and_then(|near| self.way_to(near, place.leads[0]));
        self.board.clone_from(&before);
        self.board.wall(place.middle);
        let taken = first.iter().flat_map(|way| &way.nodes);
        taken.for_each(|&node| self.board.wall(node));
        let second = far.map(|far| self.way_to(far, place.leads[1]));
        self.board = before;
        let first = first?;
        match second {
            Some(None) => None,
            other => Some((first, other.flatten())),
        }
    }
}
