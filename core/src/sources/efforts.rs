//! Every torque as an exact linear combination of those that are given.

use levertrain_exact::{Fraction, Terms};

use super::data::Ports;
use crate::base::element_set::ElementSet;
use crate::solve::torque::Equilibrium;
use crate::train::Train;

/// Torques at ports that decide all others, and how.
///
/// Equations: those of [`crate::Torques`], with a torque from outside at each port. They are solved by exact elimination.
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
        let known = 0..train.scenario().elements.len();
        let applied = known.filter(|&element| applied.contains(element)).collect();
        let shafts: Vec<usize> = ports.list.iter().map(|port| port.shaft).collect();
        let balance = Equilibrium::of(train, applied, &shafts);
        let port_terms = |port: usize| vec![(balance.port(port), 1)];
        let count = ports.list.len();
        let mut given: Vec<usize> = Vec::new();
        let mut left = balance.torques.clone();
        let order = wanted.iter().copied().filter(|&port| port < count);
        for port in order.chain(0..count) {
            if let Some(narrower) = left.constrained(&port_terms(port)) {
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
                alone = alone.constrained(&port_terms(other)).unwrap_or(alone);
            }
            let alone = alone.turning(balance.port(turned));
            for (port, own) in shares.iter_mut().enumerate() {
                own.push(alone.value(&port_terms(port)).unwrap_or(Fraction::ZERO));
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
