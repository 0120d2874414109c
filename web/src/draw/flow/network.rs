//! What power flows through: sets and clutches as nodes, shafts as what joins them.

use levertrain_core::coupling::Role;
use levertrain_core::{Body, Combination, Train};

use crate::draw::names::isolated;
use crate::motion::powers::Powers;

/// What a node stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    /// The coupling with this index.
    Set(usize),
    /// The applied clutch with this index among the elements.
    Clutch(usize),
}

/// A set or a clutch.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Node {
    /// What it stands for.
    pub place: Place,
    /// Where power enters or leaves it.
    pub ports: Vec<Port>,
    /// Members that carry no power.
    pub still: Vec<Still>,
}

/// Where power enters or leaves a node.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Port {
    /// Index of the member, or of the clutch's end.
    pub member: usize,
    /// Index of the shaft that the power comes from or goes to.
    pub shaft: usize,
    /// Power into the node, in input powers.
    pub power: f64,
    /// Whether the power comes round again: it can get from here back to here.
    pub looped: bool,
}

/// A member that carries no power.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Still {
    /// Index of the member.
    pub member: usize,
    /// Whether it is held, so that it takes torque; otherwise it is idle.
    pub held: bool,
}

/// All that power flows through.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Network {
    /// Sets in order along the axis, then clutches.
    pub nodes: Vec<Node>,
    /// Index of the input shaft.
    pub input: usize,
    /// Index of the output shaft.
    pub output: usize,
}

impl Network {
    /// The network of a combination with its powers.
    pub(super) fn of(combination: &Combination<'_>, powers: &Powers) -> Self {
        let train = combination.train();
        let mut nodes = Vec::new();
        for (index, coupling) in train.scenario().couplings.iter().enumerate() {
            let members = coupling.facts().members();
            let mut node = Node {
                place: Place::Set(index),
                ports: Vec::new(),
                still: Vec::new(),
            };
            for (member, &body) in train.members(index).iter().enumerate() {
                match (body, powers.members[index][member]) {
                    (Body::Shaft(shaft), power) if power != 0.0 => {
                        node.ports.push(Port::new(member, shaft, power));
                    }
                    _ if members[member].role == Role::Frame => {}
                    _ => node.still.push(Still {
                        member,
                        held: combination
                            .body_speed(body)
                            .is_some_and(|speed| speed.is_zero()),
                    }),
                }
            }
            nodes.push(node);
        }
        for element in combination.applied().iter() {
            let power = powers.elements[element];
            let [Body::Shaft(first), Body::Shaft(second)] = train.ends(element) else {
                continue;
            };
            if power != 0.0 {
                nodes.push(Node {
                    place: Place::Clutch(element),
                    ports: vec![Port::new(0, first, power), Port::new(1, second, -power)],
                    still: Vec::new(),
                });
            }
        }
        let mut network = Self {
            nodes,
            input: train.input(),
            output: train.output(),
        };
        network.mark_loops();
        network
    }

    /// The largest power that goes round, with the node and the port it is at.
    pub(super) fn largest_loop(&self) -> Option<(&Node, &Port)> {
        let looped = self.ports().filter(|(_, port)| port.looped);
        looped.reduce(|largest, other| {
            if other.1.power.abs() > largest.1.power.abs() {
                other
            } else {
                largest
            }
        })
    }

    /// Every port with its node.
    pub(super) fn ports(&self) -> impl Iterator<Item = (&Node, &Port)> {
        self.nodes
            .iter()
            .flat_map(|node| node.ports.iter().map(move |port| (node, port)))
    }

    /// Marks every port whose power can come round again: following the power downstream from
    /// where it goes leads back to where it came from.
    fn mark_loops(&mut self) {
        #[derive(Clone, Copy, PartialEq)]
        enum Spot {
            Node(usize),
            Shaft(usize),
        }
        let mut steps: Vec<(Spot, Spot)> = Vec::new();
        for (index, node) in self.nodes.iter().enumerate() {
            for port in &node.ports {
                let (from, to) = (Spot::Shaft(port.shaft), Spot::Node(index));
                steps.push(if port.power > 0.0 {
                    (from, to)
                } else {
                    (to, from)
                });
            }
        }
        let leads_back = |(from, to): (Spot, Spot)| {
            let mut reached = vec![to];
            let mut next = 0;
            while let Some(&spot) = reached.get(next) {
                next += 1;
                for &(start, end) in &steps {
                    if start == spot && !reached.contains(&end) {
                        reached.push(end);
                    }
                }
            }
            reached.contains(&from)
        };
        let looped: Vec<bool> = steps.iter().map(|&step| leads_back(step)).collect();
        let ports = self.nodes.iter_mut().flat_map(|node| &mut node.ports);
        for (port, looped) in ports.zip(looped) {
            port.looped = looped;
        }
    }
}

impl Port {
    const fn new(member: usize, shaft: usize, power: f64) -> Self {
        Self {
            member,
            shaft,
            power,
            looped: false,
        }
    }
}

impl Node {
    /// What it is called.
    pub(super) fn name(&self, train: &Train) -> String {
        isolated(match self.place {
            Place::Set(coupling) => train.scenario().couplings[coupling].facts().label(),
            Place::Clutch(element) => train.scenario().elements[element].label(),
        })
    }
}
