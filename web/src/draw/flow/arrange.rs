//! Where nodes stand in line, and which way each shaft's power runs: straight from one node to
//! the next, or along a rail before or after the line, as few of them crossing as can be.

use levertrain_core::short_sort::sort_short_by_key;

use super::network::{Network, Place};

/// What a drawing costs, in crossings of one band by another and the like.
const CROSSING: usize = 20;
/// A port more on the fuller side of a node: the node must be longer.
const PORT: usize = 3;
/// A lane more.
const LANE: usize = 4;
/// A rail that runs back before the line, or one that runs on after it.
const HABIT: usize = 1;
/// Rails that are tried on both sides; 2 to this power arrangements are weighed.
const MOST_TRIED: usize = 9;

/// How the nodes of a network are put in line and joined.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Arrangement {
    /// Indices of the nodes, from the input to the output.
    pub line: Vec<usize>,
    /// The shafts that carry power.
    pub ways: Vec<Way>,
}

/// How a shaft's power gets from node to node.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Way {
    /// Index of the shaft.
    pub shaft: usize,
    /// What it joins.
    pub stops: Vec<Stop>,
    /// The way it takes.
    pub course: Course,
}

/// What a shaft joins: a port of a node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stop {
    /// Place in line.
    pub place: usize,
    /// Index of the port among those of the node.
    pub port: usize,
    /// Power into the node.
    pub power: f64,
}

/// The way power takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Course {
    /// Straight between neighbours: which of `of` side by side.
    Straight {
        /// Which one.
        slot: usize,
        /// Of how many.
        of: usize,
    },
    /// Along a rail.
    Rail {
        /// Before the line (above it, or to its left) or after it.
        before: bool,
        /// Counted outwards from the line.
        lane: usize,
    },
}

impl Arrangement {
    /// Arranges a network.
    pub(super) fn of(network: &Network) -> Self {
        let line = line(network);
        let ways = ways(network, &line);
        let mut arrangement = Self { line, ways };
        arrangement.choose_courses(network);
        arrangement
    }

    fn choose_courses(&mut self, network: &Network) {
        let length = self.line.len();
        let spans: Vec<Span> = self
            .ways
            .iter()
            .map(|way| Span::of(network, way, length))
            .collect();
        let mut rails = Vec::new();
        let mut straight: Vec<(usize, Span)> = Vec::new();
        for (index, span) in spans.into_iter().enumerate() {
            if span.is_straight() {
                straight.push((index, span));
            } else {
                rails.push((index, span));
            }
        }
        for (nth, (index, span)) in straight.iter().enumerate() {
            let same = |list: &[(usize, Span)]| {
                let alike = list.iter().filter(|(_, other)| other.first == span.first);
                alike.count()
            };
            self.ways[*index].course = Course::Straight {
                slot: same(&straight[..nth]),
                of: same(&straight),
            };
        }
        let tried = rails.len().min(MOST_TRIED);
        let sides = |choice: usize| -> Vec<bool> {
            (0..rails.len())
                .map(|rail| {
                    let bit = if rail < tried { choice >> rail } else { rail };
                    bit & 1 == 0
                })
                .collect()
        };
        let weighed = (0..1_usize << tried).map(|choice| {
            let sides = sides(choice);
            let lanes = lanes(&rails, &sides);
            let cost = cost(&rails, &sides, &lanes, length);
            (cost, sides, lanes)
        });
        let Some((_, sides, lanes)) = weighed.min_by_key(|(cost, ..)| *cost) else {
            return;
        };
        for (rail, (index, _)) in rails.iter().enumerate() {
            self.ways[*index].course = Course::Rail {
                before: sides[rail],
                lane: lanes[rail],
            };
        }
    }
}

/// From where to where a shaft reaches along the line; the input is before place 1, so places
/// count from 1 here.
#[derive(Debug, Clone)]
struct Span {
    first: usize,
    last: usize,
    /// Places of its ports, in order.
    stops: Vec<usize>,
    /// Whether more power runs back along it than on.
    back: bool,
}

impl Span {
    fn of(network: &Network, way: &Way, length: usize) -> Self {
        let stops: Vec<usize> = way.stops.iter().map(|stop| stop.place + 1).collect();
        let (is_input, is_output) = (way.shaft == network.input, way.shaft == network.output);
        let nearest = stops.first().copied().unwrap_or(0);
        let farthest = stops.last().copied().unwrap_or(0);
        // Power times distance, counted from the input's side.
        let mut carried = f64::from(u8::from(is_input));
        let (mut on, mut from) = (0.0, if is_input { 0 } else { nearest });
        for stop in &way.stops {
            let place = stop.place + 1;
            on += carried * (place - from) as f64;
            from = place;
            carried -= stop.power;
        }
        on += carried * (length + 1 - from) as f64 * f64::from(u8::from(is_output));
        Self {
            first: if is_input { 0 } else { nearest },
            last: if is_output { length + 1 } else { farthest },
            stops,
            back: on < 0.0,
        }
    }

    /// Whether this joins two neighbours and nothing else.
    fn is_straight(&self) -> bool {
        let ends = usize::from(!self.stops.contains(&self.first))
            + usize::from(!self.stops.contains(&self.last));
        self.stops.len() + ends == 2 && self.last == self.first + 1
    }

    fn meets(&self, other: &Self) -> bool {
        self.first <= other.last && other.first <= self.last
    }

    /// How many of this shaft's legs cross a rail that lies nearer to the line.
    fn crossings(&self, nearer: &Self) -> usize {
        let inside = |stop: &&usize| nearer.first < **stop && **stop < nearer.last;
        self.stops.iter().filter(inside).count()
    }
}

/// The lane of each rail, outwards from the line: short rails near it, and no two that meet in
/// one lane.
fn lanes(rails: &[(usize, Span)], sides: &[bool]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..rails.len()).collect();
    let reach = |rail: usize| rails[rail].1.last - rails[rail].1.first;
    sort_short_by_key(&mut order, |&rail| reach(rail));
    // Exchanging neighbours while that saves crossings.
    let saves = |near: usize, far: usize| {
        let (a, b) = (&rails[near].1, &rails[far].1);
        sides[near] == sides[far] && a.crossings(b) < b.crossings(a)
    };
    for _ in 0..order.len() {
        for index in 1..order.len() {
            if saves(order[index - 1], order[index]) {
                order.swap(index - 1, index);
            }
        }
    }
    let mut lanes = vec![0; rails.len()];
    for (rank, &rail) in order.iter().enumerate() {
        let below = order[..rank]
            .iter()
            .filter(|&&other| sides[other] == sides[rail] && rails[other].1.meets(&rails[rail].1));
        lanes[rail] = below.map(|&other| lanes[other] + 1).max().unwrap_or(0);
    }
    lanes
}

fn cost(rails: &[(usize, Span)], sides: &[bool], lanes: &[usize], length: usize) -> usize {
    let mut cost = 0;
    let mut ports = vec![[0_usize; 2]; length + 2];
    for (rail, (_, span)) in rails.iter().enumerate() {
        let side = usize::from(sides[rail]);
        span.stops.iter().for_each(|&stop| ports[stop][side] += 1);
        cost += HABIT * usize::from(span.back == sides[rail]);
        for (other, (_, nearer)) in rails.iter().enumerate() {
            if sides[other] == sides[rail] && lanes[other] < lanes[rail] {
                cost += CROSSING * span.crossings(nearer);
            }
        }
    }
    for side in [true, false] {
        let used = lanes.iter().zip(sides).filter(|(_, at)| **at == side);
        cost += LANE * used.map(|(lane, _)| lane + 1).max().unwrap_or(0);
    }
    let fuller = ports.iter().map(|[after, before]| after.max(before));
    cost + PORT * fuller.sum::<usize>()
}

/// The order of the nodes: sets along the axis, each clutch where its shafts are shortest.
fn line(network: &Network) -> Vec<usize> {
    let is_set = |&node: &usize| matches!(network.nodes[node].place, Place::Set(_));
    let (mut line, clutches): (Vec<usize>, Vec<usize>) = (0..network.nodes.len()).partition(is_set);
    // A second round moves a clutch to what was put in after it.
    for _ in 0..2 {
        for &clutch in &clutches {
            line.retain(|&node| node != clutch);
            let tried = (0..=line.len()).map(|place| {
                let mut line = line.clone();
                line.insert(place, clutch);
                line
            });
            if let Some(best) = tried.min_by_key(|line| length(network, line)) {
                line = best;
            }
        }
    }
    line
}

/// How far shafts reach along a line, with a straight joint between neighbours worth a step.
fn length(network: &Network, line: &[usize]) -> usize {
    let ways = ways(network, line);
    let spans = ways.iter().map(|way| Span::of(network, way, line.len()));
    spans
        .map(|span| 2 * (span.last - span.first) - usize::from(span.is_straight()))
        .sum()
}

/// The shafts that carry power, with their stops in order along the line.
fn ways(network: &Network, line: &[usize]) -> Vec<Way> {
    let mut ways: Vec<Way> = Vec::new();
    for (place, &node) in line.iter().enumerate() {
        for (port, fact) in network.nodes[node].ports.iter().enumerate() {
            let stop = Stop {
                place,
                port,
                power: fact.power,
            };
            match ways.iter_mut().find(|way| way.shaft == fact.shaft) {
                Some(way) => way.stops.push(stop),
                None => ways.push(Way {
                    shaft: fact.shaft,
                    stops: vec![stop],
                    course: Course::Straight { slot: 0, of: 1 },
                }),
            }
        }
    }
    ways
}
