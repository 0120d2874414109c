//! Which wishes are in the way: an ask without some of its wishes finds something where trying everything does. The page tells
//! by such searches which wish is too much, or which of them are by themselves (`www/search/blocking.js`).

use levertrain_core::Train;
use levertrain_core::search::{Ask, Search};

use crate::brute::{every_cut, front};
use crate::everything::{ask, common_sun};

/// Whether something is found.
fn finds(train: &Train, ask: &Ask) -> bool {
    // What is refused as out of reach has none either.
    let Ok(mut search) = Search::new(train, ask) else {
        return false;
    };
    while !search.run(1000) {}
    !search.finds().is_empty()
}

/// The third range is direct: by itself there is nothing to look for.
const DIRECT: usize = 0b0100;

/// Of all wishes, bit by bit, whether those that are left have finds: told by searches, and by trying everything.
fn answers(train: &Train, all: &Ask) -> Vec<bool> {
    let couplings = &train.scenario().couplings;
    let cuts: Vec<_> = couplings.iter().map(|set| every_cut(set, all)).collect();
    let told = (0..1_usize << all.wanted.len()).map(|subset| {
        if subset & !DIRECT == 0 {
            return true;
        }
        let wanted = all.wanted.iter().enumerate();
        let wanted = wanted.filter(|(at, _)| subset >> at & 1 == 1);
        let left = Ask {
            wanted: wanted.map(|(_, wanted)| wanted.clone()).collect(),
            ..all.clone()
        };
        let found = finds(train, &left);
        let expected = !front(train.scenario(), &cuts, &left).is_empty();
        assert_eq!(found, expected, "of wishes {subset:b} of {:?}", all.wanted);
        found
    });
    told.collect()
}

/// Catches a wish that is told to be in the way and is not, and one that is and goes untold.
#[test]
fn without_some_wishes_there_are_finds_where_trying_everything_finds_some() {
    let train = common_sun().train();
    let usual = ask(&train, 0.004, [18, 54], [12, 18]);
    let off = |at: usize, times: f64, to: &mut Ask| {
        let ratio = &mut to.wanted[at].ratio;
        *ratio = ratio.map(|ratio| ratio * times);
    };
    // The first ratio follows from the second and the reverse one.
    let mut three = usual.clone();
    off(0, 1.03, &mut three);
    let told = answers(&train, &three);
    let without = |at: usize| told[0b1111 & !(1_usize << at)];
    assert_eq!([0, 1, 2, 3].map(without), [true, true, false, true]);
    // One ratio that no teeth have, and one that does not go with the others.
    let mut two = three;
    off(3, 1.0003, &mut two);
    two.wanted[3].tolerance = Some(1e-6);
    let told = answers(&train, &two);
    assert!(!told[0b1000], "none has that ratio");
    assert!(told[0b0011], "the others have some");
}
