//! Power flow of a driving combination: what each member puts in or takes out, exactly.

use levertrain_exact::Fraction;

use crate::solve::Combination;
use crate::solve::torque::Torques;

/// Ideal power through every member and element, per unit of input power.
///
/// P = T·ω with the torques of [`Torques`] and speeds per input turn. Positive at a member:
/// power goes from its shaft into the set. Without losses the powers of a set add up to zero.
/// A value is `None` where the torque is not determined.
#[derive(Debug, Clone)]
pub struct PowerFlow {
    members: Vec<Vec<Option<Fraction>>>,
    elements: Vec<Option<Fraction>>,
}

impl PowerFlow {
    /// The power flow of a combination with its torques.
    pub fn of(combination: &Combination<'_>, torques: &Torques) -> Self {
        let train = combination.train();
        let members = (0..train.scenario().couplings.len())
            .map(|coupling| {
                let bodies = train.members(coupling).iter().enumerate();
                bodies
                    .map(|(member, &body)| {
                        power(
                            torques.member(coupling, member),
                            combination.body_speed(body),
                        )
                    })
                    .collect()
            })
            .collect();
        let elements = (0..train.scenario().elements.len())
            .map(|element| {
                // Both ends of an applied element turn alike; an open one carries nothing.
                let [_, second] = train.ends(element);
                power(torques.element(element), combination.body_speed(second))
            })
            .collect();
        Self { members, elements }
    }

    /// Power into coupling `coupling` through member `member`.
    pub fn member(&self, coupling: usize, member: usize) -> Option<&Fraction> {
        self.members[coupling][member].as_ref()
    }

    /// Power that element `element` passes from its first end to its second.
    pub fn element(&self, element: usize) -> Option<&Fraction> {
        self.elements[element].as_ref()
    }

    /// For a coupling driven through two members or more at once, the share of each: member
    /// index, and part of all power that goes in.
    pub fn shares(&self, coupling: usize) -> Vec<(usize, Fraction)> {
        let driving: Vec<(usize, &Fraction)> = self.members[coupling]
            .iter()
            .enumerate()
            .filter_map(|(member, power)| Some((member, power.as_ref()?)))
            .filter(|(_, power)| power.signum() > 0)
            .collect();
        if driving.len() < 2 {
            return Vec::new();
        }
        let total = driving
            .iter()
            .fold(Fraction::ZERO, |sum, (_, power)| &sum + power);
        driving
            .into_iter()
            .filter_map(|(member, power)| Some((member, power.over(&total)?)))
            .collect()
    }

    /// The largest power anywhere, where that is more than the input's: part of it goes round
    /// inside the train (recirculating power).
    pub fn recirculating(&self) -> Option<Fraction> {
        let all = self
            .members
            .iter()
            .flatten()
            .chain(&self.elements)
            .flatten();
        let sizes = all.map(Fraction::abs);
        sizes.max().filter(|largest| *largest > Fraction::ONE)
    }
}

/// Torque times speed. A member that floats carries no torque, so its power is zero whatever
/// its speed.
fn power(torque: Option<&Fraction>, speed: Option<Fraction>) -> Option<Fraction> {
    let torque = torque?;
    if torque.is_zero() {
        return Some(Fraction::ZERO);
    }
    Some(torque * &speed?)
}
