//! Every torque as an exact linear combination of those that are given.

use levertrain_exact::{Fraction, Motions, Terms};

use super::data::Ports;
use crate::base::element_set::ElementSet;
use crate::train::{Body, Train};

/// Torques at ports that decide all others, and how.
///
/// Equations: those of [`crate::Torques`], with a torque from outside at each port: a mesh row r with Σ rᵢ·ωᵢ = 0 does no
/// work, so its member torques are λ·rᵢ for one unknown λ, and on every shaft the torques from outside, from the sets and from
/// applied elements add up to zero. They are solved by exact elimination.
#[derive(Debug, Clone, PartialEq)]
pub struct Efforts {
    given: Vec<usize>,
    ports: Vec<Vec<Fraction>>,
    elements: Vec<Option<Vec<Fraction>>>,
}

impl Efforts {
    /// Takes the torques of these ports as given, one after the other as long as each can still be chosen freely, and
    /// then those of the others.
    pub fn of(train: &Train, applied: ElementSet, ports: &Ports, wanted: &[usize]) -> Self {
        let balance = Balance::of(train, applied, ports);
        let count = ports.list.len();
        let mut given: Vec<usize> = Vec::new();
        let mut left = balance.torques.clone();
        let order = wanted.iter().copied().filter(|&port| port < count);
        for port in order.chain(0..count) {
            if let Some(narrower) = left.constrained(&balance.port(port)) {
                left = narrower;
                given.push(port);
            }
        }
        let mut shares = vec![Vec::new(); count];
        let elements = train.scenario().elements.len();
        // Without any torque from outside what an element carries is zero, or nothing decides it.
        let idle: Vec<Terms> = (0..elements)
            .map(|element| balance.element(element))
            .collect();
        let idle = left.values(&idle);
        let is_open = |element: usize| idle.iter().any(|torques| !torques[element].is_zero());
        let mut carried: Vec<Option<Vec<Fraction>>> = (0..elements)
            .map(|element| (!is_open(element)).then(Vec::new))
            .collect();
        for &turned in &given {
            let mut alone = balance.torques.clone();
            for &other in given.iter().filter(|&&other| other != turned) {
                alone = alone.constrained(&balance.port(other)).unwrap_or(alone);
            }
            let alone = alone.turning(balance.first_port + turned);
            for (port, own) in shares.iter_mut().enumerate() {
                own.push(alone.value(&balance.port(port)).unwrap_or(Fraction::ZERO));
            }
            for (element, carried) in carried.iter_mut().enumerate() {
                if let (Some(own), Some(torque)) = (carried, alone.value(&balance.element(element)))
                {
                    own.push(torque);
                }
            }
        }
        Self {
            given,
            ports: shares,
            elements: carried,
        }
    }

    /// The ports whose torques are given, in the order wanted.
    pub fn given(&self) -> &[usize] {
        &self.given
    }

    /// The factor of each given torque in the torque at a port.
    pub fn port(&self, port: usize) -> &[Fraction] {
        &self.ports[port]
    }

    /// The same for the torque that an element passes from its first end to its second; `None` where more is applied than needed, so
    /// that nothing decides it.
    pub fn element(&self, element: usize) -> Option<&[Fraction]> {
        self.elements[element].as_deref()
    }

    /// The torque at a port at these torques of the given ones.
    pub fn at(&self, port: usize, given: &[f64]) -> f64 {
        let own = self.ports[port].iter().zip(given);
        own.map(|(factor, torque)| factor.to_f64() * torque).sum()
    }
}

/// The equilibrium of every shaft.
struct Balance {
    torques: Motions,
    /// For each applied element, in ascending order, its index.
    applied: Vec<usize>,
    rows: usize,
    first_port: usize,
}

impl Balance {
    fn of(train: &Train, applied: ElementSet, ports: &Ports) -> Self {
        let scenario = train.scenario();
        let known = 0..scenario.elements.len();
        let applied: Vec<usize> = known.filter(|&element| applied.contains(element)).collect();
        let mut equations: Vec<Terms> = vec![Terms::new(); scenario.shafts.len()];
        let mut add = |body: Body, unknown: usize, factor: i64| {
            if let (Body::Shaft(shaft), true) = (body, factor != 0) {
                equations[shaft].push((unknown, factor));
            }
        };
        let mut rows = 0;
        for index in 0..scenario.couplings.len() {
            for factors in &train.gearing(index).mesh_rows {
                // The set pushes back on its shafts.
                for (&body, factor) in train.members(index).iter().zip(factors) {
                    add(body, rows, -factor);
                }
                rows += 1;
            }
        }
        for (index, &element) in applied.iter().enumerate() {
            let [first, second] = train.ends(element);
            add(first, rows + index, -1);
            add(second, rows + index, 1);
        }
        let first_port = rows + applied.len();
        for (index, port) in ports.list.iter().enumerate() {
            add(Body::Shaft(port.shaft), first_port + index, 1);
        }
        let mut torques = Motions::free(first_port + ports.list.len());
        for terms in &equations {
            torques = torques.constrained(terms).unwrap_or(torques);
        }
        Self {
            torques,
            applied,
            rows,
            first_port,
        }
    }

    fn port(&self, port: usize) -> Terms {
        vec![(self.first_port + port, 1)]
    }

    /// What an element passes on; an open one nothing.
    fn element(&self, element: usize) -> Terms {
        let at = self.applied.iter().position(|&applied| applied == element);
        at.map_or(Terms::new(), |at| vec![(self.rows + at, 1)])
    }
}
