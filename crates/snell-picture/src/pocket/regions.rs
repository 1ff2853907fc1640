//! Cells beside one another with one answer, as regions, each with the place of
//! its name.

use super::cells::PocketCell;

/// A region.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Region {
    /// The answer that its cells have in common.
    pub answer: String,
    /// Whether something fishes it.
    pub fished: bool,
    /// Where its name stands: a row of it, the first column there, and how many follow it.
    pub name_at: (usize, usize, usize),
}

/// The regions of a grid of cells, in the order of their first cells; and to which of them each cell belongs.
pub(super) fn regions(rows: &[&[PocketCell]]) -> (Vec<Region>, Vec<Vec<usize>>) {
    let mut of: Vec<Vec<Option<usize>>> = rows.iter().map(|row| vec![None; row.len()]).collect();
    let mut regions: Vec<Region> = Vec::new();
    for row in 0..rows.len() {
        for column in 0..rows[row].len() {
            if of[row][column].is_none() {
                let cells = filled(rows, &mut of, (row, column), regions.len());
                let cell = &rows[row][column];
                regions.push(Region {
                    answer: cell.answer.clone(),
                    fished: cell.fished,
                    name_at: longest_run(&cells),
                });
            }
        }
    }
    let of = of
        .into_iter()
        .map(|row| row.into_iter().flatten().collect())
        .collect();
    (regions, of)
}

/// Takes all cells that hang together with one and have its answer into a region.
fn filled(
    rows: &[&[PocketCell]],
    of: &mut [Vec<Option<usize>>],
    first: (usize, usize),
    region: usize,
) -> Vec<(usize, usize)> {
    let same = |row: usize, column: usize| {
        let (one, other) = (&rows[first.0][first.1], rows.get(row)?.get(column)?);
        (one.answer == other.answer && one.fished == other.fished).then_some((row, column))
    };
    let mut cells = Vec::new();
    let mut open = vec![first];
    while let Some((row, column)) = open.pop() {
        if of[row][column].is_some() {
            continue;
        }
        of[row][column] = Some(region);
        cells.push((row, column));
        let left = column.checked_sub(1).and_then(|left| same(row, left));
        let above = row.checked_sub(1).and_then(|above| same(above, column));
        open.extend(
            [left, above, same(row, column + 1), same(row + 1, column)]
                .into_iter()
                .flatten(),
        );
    }
    cells.sort_unstable();
    cells
}

/// The longest run of cells in one row; the uppermost of several.
fn longest_run(cells: &[(usize, usize)]) -> (usize, usize, usize) {
    let mut longest = (0, 0, 0);
    let mut run = (0, 0, 0);
    for (row, column) in cells {
        run = match run {
            (at, from, count) if count > 0 && at == *row && from + count == *column => (at, from, count + 1),
            _ => (*row, *column, 1),
        };
        if run.2 > longest.2 {
            longest = run;
        }
    }
    longest
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(answers: &str) -> Vec<PocketCell> {
        let cell = |answer: char| PocketCell {
            answer: answer.to_string(),
            fished: true,
            ..PocketCell::default()
        };
        answers.chars().map(cell).collect()
    }

    #[test]
    fn what_hangs_together_is_one_region() {
        let rows = [row("aab"), row("abb"), row("bba")];
        let rows: Vec<&[PocketCell]> = rows.iter().map(Vec::as_slice).collect();
        let (regions, of) = regions(&rows);
        let names: Vec<&str> = regions.iter().map(|region| region.answer.as_str()).collect();
        assert_eq!(names, ["a", "b", "a"]);
        assert_eq!(of, [[0, 0, 1], [0, 1, 1], [1, 1, 2]]);
        assert_eq!(regions[1].name_at, (1, 1, 2));
    }
}
