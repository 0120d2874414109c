//! How a train with several sources stands at the moment: which speeds and torques are given, and what follows.

use super::data::{MachineKind, Ports, Role};
use super::efforts::Efforts;
use super::shares::balances;
use super::speeds::{Speeds, Tie};
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// Watts of one N·m at one rev/min.
pub(super) const WATTS: f64 = std::f64::consts::PI / 30.0;
/// Torque in N·m at the input to begin with, or less where the limits of its source are lower.
const FIRST_TORQUE: f64 = 100.0;
/// Speeds and torques stay within this, in rev/min and N·m.
pub const MOST: f64 = 1e7;

/// Speeds and torques of a combination, all decided: as many are given as can be, in the order in which they were touched, and
/// those that are kept before all others.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    ports: Ports,
    applied: ElementSet,
    /// All shafts; what was touched last comes first.
    order: Vec<usize>,
    kept: Vec<bool>,
    speeds: Speeds,
    /// Of each shaft in rev/min.
    turns: Vec<f64>,
    efforts: Efforts,
    /// Of each port in N·m, on the train from outside.
    torques: Vec<f64>,
    /// Whether motors balance each other, where two can.
    balanced: bool,
}

impl Stand {
    /// The stand of a combination to begin with: the input turns at a speed in rev/min, and is kept at it. In a train with more
    /// than one source or output all that is free turns as the input does, in others it rests.
    pub fn of(train: &Train, applied: ElementSet, ports: Ports, input_speed: f64) -> Self {
        let shafts = train.scenario().shafts.len();
        let mut order: Vec<usize> = ports.list.iter().map(|port| port.shaft).collect();
        order.extend(0..shafts);
        let mut seen = vec![false; shafts];
        order.retain(|&shaft| !std::mem::replace(&mut seen[shaft], true));
        // The output decides before further sources do.
        if let Some(at) = order.iter().position(|&shaft| shaft == train.output()) {
            order[1..=at].rotate_right(1);
        }
        let mut kept = vec![false; shafts];
        kept[train.input()] = true;
        let rest = if ports.is_branched() {
            input_speed
        } else {
            0.0
        };
        let mut turns = vec![rest; shafts];
        turns[train.input()] = input_speed;
        let mut stand = Self {
            speeds: Speeds::of(train, applied, &[]),
            efforts: Efforts::of(train, applied, &ports, &torque_order(&ports)),
            torques: vec![0.0; ports.list.len()],
            balanced: ports.motors().len() == 2,
            ports,
            applied,
            order,
            kept,
            turns,
        };
        stand.settle(train, None);
        stand.first_torques();
        stand
    }

    /// Other elements are applied: what was given stays as far as it still can be.
    pub fn apply(&mut self, train: &Train, applied: ElementSet) {
        self.applied = applied;
        self.settle(train, None);
        let before = std::mem::replace(
            &mut self.efforts,
            Efforts::of(train, applied, &self.ports, &torque_order(&self.ports)),
        );
        if before.given() != self.efforts.given() {
            self.first_torques();
        }
        self.settle_torques();
    }

    /// Turns a shaft at a speed in rev/min; what is kept stays, and of the others those that were touched last.
    ///
    /// # Errors
    /// The speeds that are kept decide it already.
    pub fn turn(&mut self, train: &Train, shaft: usize, speed: f64) -> Result<(), Tie> {
        let was_kept = std::mem::replace(&mut self.kept[shaft], false);
        let mut wanted = self.kept_shafts();
        wanted.push(shaft);
        self.kept[shaft] = was_kept;
        let tie = Speeds::of(train, self.applied, &wanted)
            .ties()
            .last()
            .cloned();
        if let Some(tie) = tie.filter(|tie| tie.shaft == shaft) {
            return Err(tie);
        }
        self.order.retain(|&known| known != shaft);
        self.order.insert(0, shaft);
        self.turns[shaft] = within(speed);
        self.settle(train, Some(shaft));
        Ok(())
    }

    /// Keeps a shaft at the speed it has while others are turned, or no longer.
    pub fn keep(&mut self, train: &Train, shaft: usize, keeps: bool) {
        self.kept[shaft] = keeps;
        self.settle(train, None);
    }

    /// Sets the torque at a port, if it can be given.
    pub fn push(&mut self, port: usize, torque: f64) {
        if self.efforts.given().contains(&port) {
            self.torques[port] = within(torque);
            self.settle_torques();
        }
    }

    /// Has the motors balance each other, or gives both torques.
    pub fn balance(&mut self, balanced: bool) {
        self.balanced = balanced;
        self.settle_torques();
    }

    /// The ports.
    pub fn ports(&self) -> &Ports {
        &self.ports
    }

    /// The applied elements.
    pub fn applied(&self) -> ElementSet {
        self.applied
    }

    /// What decides which speeds.
    pub fn speeds(&self) -> &Speeds {
        &self.speeds
    }

    /// What decides which torques.
    pub fn efforts(&self) -> &Efforts {
        &self.efforts
    }

    /// Speed of each shaft in rev/min.
    pub fn turns(&self) -> &[f64] {
        &self.turns
    }

    /// Torque at each port in N·m, on the train from outside.
    pub fn torques(&self) -> &[f64] {
        &self.torques
    }

    /// Whether a shaft depends on any speed that is given: what does not is held.
    pub fn turns_at_all(&self, shaft: usize) -> bool {
        let factors = self.speeds.shaft(shaft).unwrap_or_default();
        factors.iter().any(|factor| !factor.is_zero())
    }

    /// Whether a shaft is kept at its speed.
    pub fn is_kept(&self, shaft: usize) -> bool {
        self.kept[shaft]
    }

    /// The given speeds: shafts with their speeds.
    pub fn given(&self) -> Vec<(usize, f64)> {
        let given = self.speeds.given().iter();
        given.map(|&shaft| (shaft, self.turns[shaft])).collect()
    }

    /// Whether two motors could balance each other, and do.
    pub fn is_balanced(&self) -> Option<bool> {
        self.can_balance().then_some(self.balanced)
    }

    /// Power at a port in W, positive where it feeds the train.
    pub fn power(&self, port: usize) -> f64 {
        self.torques[port] * self.turns[self.ports.list[port].shaft] * WATTS
    }

    /// Electric power in W that all motors take together, less what they give.
    pub fn electric(&self) -> f64 {
        let of = |port: usize| {
            let machine = self.ports.list[port].machine;
            let efficiency = machine.map_or(1.0, |machine| machine.efficiency.value);
            let power = self.power(port);
            if power > 0.0 {
                power / efficiency
            } else {
                power * efficiency
            }
        };
        self.ports.motors().into_iter().map(of).sum()
    }

    /// What keeps each shaft from being turned while those that are kept stay as they are: those that decide it, none where it is held;
    /// nothing where it can be turned.
    pub fn decided(&self, train: &Train) -> Vec<Option<Vec<usize>>> {
        let kept = self.kept_shafts();
        let all = Speeds::of(train, self.applied, &kept);
        let by = |speeds: &Speeds, shaft: usize| {
            let own = speeds.shaft(shaft)?.iter().zip(speeds.given());
            let own = own.filter(|(factor, _)| !factor.is_zero());
            Some(own.map(|(_, &shaft)| shaft).collect())
        };
        let own = |shaft: usize| {
            if !self.kept[shaft] {
                return by(&all, shaft);
            }
            // One that is kept is turned all the same: it is then the others that decide.
            let others = kept.iter().copied().filter(|&other| other != shaft);
            let others: Vec<usize> = others.collect();
            by(&Speeds::of(train, self.applied, &others), shaft)
        };
        (0..self.turns.len()).map(own).collect()
    }

    fn kept_shafts(&self) -> Vec<usize> {
        let order = self.order.iter().copied();
        order.filter(|&shaft| self.kept[shaft]).collect()
    }

    /// Finds which speeds are given, and all others. The one that is turned counts before the others that are kept only where
    /// it is kept itself.
    fn settle(&mut self, train: &Train, turned: Option<usize>) {
        let mut wanted = self.kept_shafts();
        wanted.extend(turned);
        wanted.extend(
            self.order
                .iter()
                .copied()
                .filter(|&shaft| !self.kept[shaft]),
        );
        let mut seen = vec![false; self.turns.len()];
        wanted.retain(|&shaft| !std::mem::replace(&mut seen[shaft], true));
        self.speeds = Speeds::of(train, self.applied, &wanted);
        let given: Vec<f64> = (self.speeds.given().iter())
            .map(|&shaft| self.turns[shaft])
            .collect();
        for (shaft, speed) in self.turns.iter_mut().enumerate() {
            // Given ones keep their speed to the last digit.
            if !self.speeds.given().contains(&shaft) {
                *speed = self.speeds.at(shaft, &given).unwrap_or(0.0);
            }
        }
        self.settle_torques();
    }

    /// The input pulls, and the output takes its power; motors have nothing to do, or balance each other.
    fn first_torques(&mut self) {
        let most = self.ports.list[0]
            .machine
            .map(|machine| machine.torque.value);
        let wanted = most.map_or(FIRST_TORQUE, |most| most.min(FIRST_TORQUE));
        self.torques.fill(0.0);
        let given = self.efforts.given().to_vec();
        if given.contains(&0) {
            self.torques[0] = wanted;
        } else if let Some((&port, factor)) = given
            .iter()
            .zip(self.efforts.port(0))
            .find(|(_, factor)| !factor.is_zero())
        {
            self.torques[port] = wanted / factor.to_f64();
        }
        let output = self.ports.output();
        if given.starts_with(&[output, 0]) {
            // As without any loss.
            let [input, out] = [0, output].map(|port| self.turns[self.ports.list[port].shaft]);
            let torque = -wanted * input / out;
            self.torques[output] = match torque.is_finite() {
                true => torque.clamp(-10.0 * wanted, 10.0 * wanted),
                false => -wanted,
            };
        }
        self.settle_torques();
    }

    fn can_balance(&self) -> bool {
        let given = self.efforts.given();
        given.len() == 2 && given[1] == 0 && self.ports.motors().len() == 2
    }

    fn settle_torques(&mut self) {
        let given = self.efforts.given().to_vec();
        let values: Vec<f64> = given.iter().map(|&port| self.torques[port]).collect();
        let mut values = values;
        if self.balanced && self.can_balance() {
            values[1] = self.balancing(values[0]).unwrap_or(0.0);
        }
        for port in 0..self.torques.len() {
            self.torques[port] = match given.iter().position(|&known| known == port) {
                Some(at) => values[at],
                None => self.efforts.at(port, &values),
            };
        }
    }

    /// The torque of the input at which the electric powers of both motors add up to nothing, the least loss of all.
    fn balancing(&self, output: f64) -> Option<f64> {
        let list = self.ports.list.iter();
        let speeds: Vec<f64> = list.map(|port| self.turns[port.shaft]).collect();
        let parts: Vec<[f64; 2]> = (0..speeds.len())
            .map(|port| {
                let factors = self.efforts.port(port);
                [factors[0].to_f64() * output, factors[1].to_f64()]
            })
            .collect();
        let motors: Vec<(usize, f64)> = (self.ports.motors().into_iter())
            .map(|port| {
                let machine = self.ports.list[port].machine;
                (
                    port,
                    machine.map_or(1.0, |machine| machine.efficiency.value),
                )
            })
            .collect();
        let motors = [*motors.first()?, *motors.get(1)?];
        let lost = |open: &f64| -> f64 {
            let power = |port: usize| (parts[port][0] + parts[port][1] * open) * speeds[port];
            -motors.iter().map(|&(port, _)| power(port)).sum::<f64>()
        };
        let found = balances(&motors, &speeds, &parts);
        found.into_iter().min_by(|a, b| lost(a).total_cmp(&lost(b)))
    }
}

/// Torques of outputs are given first, then that of the input.
fn torque_order(ports: &Ports) -> Vec<usize> {
    let output = ports.output();
    let rest = 0..ports.list.len();
    let further = rest.filter(|&port| ports.list[port].role == Role::Further);
    [output, 0].into_iter().chain(further).collect()
}

fn within(value: f64) -> f64 {
    if value.is_finite() {
        value.clamp(-MOST, MOST)
    } else {
        0.0
    }
}

/// What of a source's limits a port is beyond, by the name of its field.
pub(super) fn beyond(stand: &Stand, port: usize) -> Vec<&'static str> {
    let Some(machine) = stand.ports.list[port].machine else {
        return Vec::new();
    };
    let speed = stand.turns[stand.ports.list[port].shaft];
    let torque = stand.torques[port];
    let power = stand.power(port).abs() / 1000.0;
    // A number that was set to the limit itself is not beyond it for a rounding.
    let over = |value: f64, most: f64| value > most * (1.0 + 1e-9);
    let is_engine = machine.kind == MachineKind::Engine;
    let checks = [
        (
            "speed",
            over(speed.abs(), machine.speed.value) || (is_engine && speed < 0.0),
        ),
        (
            "torque",
            over(torque.abs(), machine.torque.value)
                || (is_engine && torque < -1e-9 * machine.torque.value),
        ),
        ("power", machine.power.is_some_and(|most| over(power, most))),
    ];
    checks
        .into_iter()
        .filter(|(_, is_beyond)| *is_beyond)
        .map(|(name, _)| name)
        .collect()
}
