//! Work shared out to the threads that the machine has.

use std::thread;

/// Below this many things a second thread costs more than it brings.
const WORTH_A_THREAD: usize = 64;

/// What came of each, in their order however many threads work on them; what comes to nothing is left out.
pub fn in_threads<'t, T: Sync, R: Send>(all: &'t [T], one: impl Fn(&'t T) -> Option<R> + Sync) -> Vec<R> {
    // To ask the system costs as much as to read a rig.
    let threads = match all.len() < WORTH_A_THREAD {
        true => 1,
        false => thread::available_parallelism().map_or(1, usize::from),
    };
    in_so_many_threads(threads, all, &one)
}

fn in_so_many_threads<'t, T: Sync, R: Send>(
    threads: usize,
    all: &'t [T],
    one: &(impl Fn(&'t T) -> Option<R> + Sync),
) -> Vec<R> {
    if threads == 1 {
        return all.iter().filter_map(one).collect();
    }
    thread::scope(|scope| {
        let shares = all.chunks(all.len().div_ceil(threads));
        let running: Vec<_> = shares
            .map(|share| scope.spawn(move || share.iter().filter_map(one).collect::<Vec<R>>()))
            .collect();
        let joined = running.into_iter().map(thread::ScopedJoinHandle::join);
        joined
            .flat_map(|done| done.unwrap_or_else(|panic| std::panic::resume_unwind(panic)))
            .collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn any_number_of_threads_brings_the_same_in_the_same_order() {
        let all: Vec<usize> = (0..1000).collect();
        let odd = |number: &usize| (number % 2 == 1).then_some(number * 3);
        let one = in_so_many_threads(1, &all, &odd);
        assert_eq!(one.len(), 500);
        for threads in [2, 3, 7, 999] {
            assert_eq!(in_so_many_threads(threads, &all, &odd), one, "{threads} threads");
        }
        assert_eq!(in_threads(&all, odd), one);
    }
}
