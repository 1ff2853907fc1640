//! The line that a history follows: from its last state to first parent after
//! first parent. What is beside it is a branch, and was joined somewhere.

use crate::story::Commit;

/// Where a state stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stands {
    /// On the line.
    OnLine,
    /// On a branch, which the line joined in this state.
    Beside { joined: usize },
}

/// Where each state stands; the last one ends the line.
pub(super) fn stands(commits: &[Commit]) -> Vec<Stands> {
    let mut line: Vec<usize> = Vec::new();
    let mut next = commits.len().checked_sub(1);
    while let Some(at) = next {
        line.push(at);
        next = commits[at].parents.first().copied();
    }
    let mut found: Vec<Option<Stands>> = vec![None; commits.len()];
    for at in &line {
        found[*at] = Some(Stands::OnLine);
    }
    // The earliest joining is the one that brought a state.
    for joined in line.into_iter().rev() {
        let mut open: Vec<usize> = commits[joined].parents.iter().skip(1).copied().collect();
        while let Some(at) = open.pop() {
            if found[at].is_none() {
                found[at] = Some(Stands::Beside { joined });
                open.extend(&commits[at].parents);
            }
        }
    }
    // Every state is one that the last one was made from.
    found
        .into_iter()
        .map(|one| one.unwrap_or(Stands::OnLine))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made_from(parents: &[usize]) -> Commit {
        Commit {
            parents: parents.to_vec(),
            ..Commit::default()
        }
    }

    #[test]
    fn the_line_goes_by_first_parents_and_a_branch_belongs_to_the_merge_that_joined_it_first() {
        // 0 -- 1 ------ 3 -- 5
        //   \-- 2 -----/    /
        //         \-- 4 ---/
        let parents: [&[usize]; 6] = [&[], &[0], &[0], &[1, 2], &[2], &[3, 4]];
        let commits: Vec<Commit> = parents.map(made_from).to_vec();
        let beside = |joined| Stands::Beside { joined };
        let line = Stands::OnLine;
        assert_eq!(stands(&commits), [line, line, beside(3), line, beside(5), line]);
    }
}
