//! A search in shards covers each candidate once, and all shards together find what one search finds.

use levertrain_core::Train;
use levertrain_core::search::{Ask, Find, Search};
use levertrain_tests::files::scenario_folder;

use crate::everything::{ask, finds};

pub fn train() -> Train {
    train_of("04-six-speed-three-sets")
}

#[track_caller]
pub fn train_of(stem: &str) -> Train {
    let path = scenario_folder().join(format!("{stem}.json"));
    let text = std::fs::read_to_string(path).unwrap_or_default();
    match Train::parse(&text) {
        Ok(train) => train,
        Err(problems) => panic!("{problems:#?}"),
    }
}

#[test]
fn shards_together_are_the_search() {
    let train = train();
    let asked: Ask = ask(&train, 0.05, [20, 80], [12, 40]);
    let whole = finds(&train, &asked);
    for count in [1, 2, 3, 7, 300] {
        let (mut covered, mut all) = (0, Vec::<Find>::new());
        for which in 0..count {
            let mut shard = match Search::shard(&train, &asked, which, count) {
                Ok(shard) => shard,
                Err(problems) => panic!("{problems:#?}"),
            };
            while !shard.run(500) {}
            let counts = shard.counts();
            covered += counts.outside + counts.beaten + counts.tried;
            all.extend(shard.finds());
        }
        assert_eq!(covered, whole.candidates(), "{count} shards");
        // The last shard's search is told what the others found.
        let mut merging = match Search::shard(&train, &asked, count - 1, count) {
            Ok(shard) => shard,
            Err(problems) => panic!("{problems:#?}"),
        };
        for find in all.into_iter().rev() {
            merging.tell(find);
        }
        while !merging.run(500) {}
        assert_eq!(merging.finds(), whole.finds(), "{count} shards");
    }
}
