//! The values of a line sorted by its row, with at most one fault.

use super::given::{Fit, Given, Values};
use super::run::{Accept, Fitting, Run};
use super::shape::shape;
use super::slips;
use crate::keywords::{ClauseRow, Need, Row, Slot, TextNeed};
use crate::project::LineRef;
use snell_finding::Finding;
use snell_syntax::{Clause, Expr, Joint, Plain};
use snell_text::Span;

impl<'p> Fitting<'_, 'p> {
    /// Sorts a line's values by its row. At most one fault is reported.
    pub fn line(&self, line: LineRef<'p>, row: &'static Row, values: Values<'p>) -> Given<'p> {
        let mut given = Given {
            row,
            line,
            fits: Vec::with_capacity(values.items.len() + 2),
            joints: Vec::new(),
            text: None,
            faulty: false,
        };
        if let Err(finding) = self.sort(&mut given, values) {
            self.faults.report(*finding);
            given.faulty = true;
        }
        given
    }

    /// Sorts the values of a `change`. Where the part takes an `of` and the first value is no length,
    /// the values are what stands behind `of`: `change upper to 5X fluoro`.
    pub fn change(&self, line: LineRef<'p>, row: &'static Row, values: Values<'p>) -> Given<'p> {
        let mut given = self.line(line, row, Values { items: &[], ..values });
        if given.faulty {
            return given;
        }
        let (joint, slots) = match (values.items.first(), row.clause(Joint::Of)) {
            (Some(first), Some(of)) if !given.has(Joint::Of) && !self.opens(line, row, first) => {
                (Some(Joint::Of), of.takes)
            }
            _ => (None, row.takes),
        };
        given.joints.extend(joint);
        let run = self.run(line, row, joint, slots, values.span);
        if let Err(finding) = run.items(values.items, &mut given.fits) {
            self.faults.report(*finding);
            given.faulty = true;
        }
        given
    }

    /// Whether a value fits a place before the first clause.
    fn opens(&self, line: LineRef<'p>, row: &'static Row, expr: &'p Expr) -> bool {
        let run = self.run(line, row, None, row.takes, expr.span);
        let shape = shape(expr);
        row.takes
            .iter()
            .any(|slot| !matches!(run.accept(slot.take, expr, &shape, &[]), Accept::No))
    }

    /// Sorts the values of an `add`: those behind the part's key, without the `after`.
    pub fn added(&self, line: LineRef<'p>, row: &'static Row, plain: &'p Plain, key: Span) -> Given<'p> {
        let mut given = self.line(
            line,
            row,
            Values {
                items: &plain.items[1..],
                clauses: &[],
                text: plain.text,
                span: key,
            },
        );
        for clause in plain.clauses.iter().filter(|clause| clause.joint != Joint::After) {
            if given.faulty {
                break;
            }
            if let Err(finding) = self.clause(&mut given, clause) {
                self.faults.report(*finding);
                given.faulty = true;
            }
        }
        given
    }

    fn run(
        &self,
        line: LineRef<'p>,
        row: &'static Row,
        joint: Option<Joint>,
        slots: &'static [Slot],
        span: Span,
    ) -> Run<'_, 'p> {
        Run {
            fitting: self,
            line,
            row,
            joint,
            slots,
            span,
        }
    }

    fn sort(&self, given: &mut Given<'p>, values: Values<'p>) -> Result<(), Box<Finding>> {
        let run = self.run(given.line, given.row, None, given.row.takes, values.span);
        run.items(values.items, &mut given.fits)?;
        for clause in values.clauses {
            self.clause(given, clause)?;
        }
        self.text(given, values)
    }

    fn clause(&self, given: &mut Given<'p>, clause: &'p Clause) -> Result<(), Box<Finding>> {
        let Some(row) = given.row.clause(clause.joint) else {
            return Err(slips::clause_misplaced(given, clause));
        };
        if given.has(clause.joint) {
            return Err(slips::clause_twice(given, clause));
        }
        given.joints.push(clause.joint);
        let run = self.run(given.line, given.row, Some(clause.joint), row.takes, clause.span);
        run.items(&clause.items, &mut given.fits)?;
        if clause.items.is_empty() && clause.text.is_none() && !row.takes.is_empty() && !self.partial {
            return Err(slips::value_missing(&run, &row.takes[0]));
        }
        self.clause_text(given, row, clause)
    }

    fn clause_text(
        &self,
        given: &mut Given<'p>,
        row: &'static ClauseRow,
        clause: &'p Clause,
    ) -> Result<(), Box<Finding>> {
        match (row.text, clause.text) {
            (TextNeed::None, Some(text)) if given.row.text != TextNeed::May => {
                Err(slips::text_misplaced(given, text))
            }
            (TextNeed::Needed, None) => Err(slips::text_missing(given, clause.span)),
            (_, text) => {
                given.text = text.or(given.text);
                Ok(())
            }
        }
    }

    fn text(&self, given: &mut Given<'p>, values: Values<'p>) -> Result<(), Box<Finding>> {
        match (given.row.text, values.text) {
            (TextNeed::None, Some(text)) => Err(slips::text_misplaced(given, text)),
            (TextNeed::Needed, None) => Err(slips::text_missing(given, values.span)),
            (_, text) => {
                given.text = text.or(given.text);
                let reason = given.row.clauses.iter().find(|row| row.text == TextNeed::Needed);
                match reason {
                    Some(row) if !given.has(row.joint) => Err(slips::clause_missing(given, row, values.span)),
                    _ => Ok(()),
                }
            }
        }
    }
}

impl<'p> Run<'_, 'p> {
    pub(super) fn items(&self, items: &'p [Expr], fits: &mut Vec<Fit<'p>>) -> Result<(), Box<Finding>> {
        let first = fits.len();
        let mut next = 0;
        for at in 0..items.len() {
            next = match self.item(&items[at..], next, first, fits) {
                Ok(next) => next,
                Err(mut finding) => {
                    // A way out is sure only where the values behind fit, too.
                    if finding.fixes.iter().any(|fix| fix.sure) && !self.rest_fits(&items[at..], next) {
                        finding.fixes.iter_mut().for_each(|fix| fix.sure = false);
                    }
                    return Err(finding);
                }
            };
        }
        let unfilled = self
            .slots
            .iter()
            .find(|slot| slot.need == Need::Must && !fits[first..].iter().any(|fit| fit.take == slot.take));
        match unfilled {
            Some(slot) if !self.fitting.partial => Err(slips::value_missing(self, slot)),
            _ => Ok(()),
        }
    }

    /// Puts the first of some values in the first slot from `next` on that takes it; answers the slot to go on from.
    fn item(
        &self,
        items: &'p [Expr],
        next: usize,
        first: usize,
        fits: &mut Vec<Fit<'p>>,
    ) -> Result<usize, Box<Finding>> {
        let expr = &items[0];
        let shape = shape(expr);
        for (at, slot) in self.slots.iter().enumerate().skip(next) {
            match self.accept(slot.take, expr, &shape, &fits[first..]) {
                Accept::No => {}
                Accept::Wrong(finding) => return Err(finding),
                Accept::Yes => {
                    fits.push(Fit {
                        joint: self.joint,
                        take: slot.take,
                        expr,
                        line: self.line,
                    });
                    return Ok(if slot.need == Need::Many { at } else { at + 1 });
                }
            }
        }
        Err(slips::left_over(self, items, &shape, next))
    }

    /// Whether the values behind the first would find places if that one were as it should be.
    fn rest_fits(&self, items: &'p [Expr], next: usize) -> bool {
        let shape = shape(&items[0]);
        let takes = |slot: &Slot| !matches!(self.accept(slot.take, &items[0], &shape, &[]), Accept::No);
        let Some(taken) = (next..self.slots.len()).find(|at| takes(&self.slots[*at])) else {
            return true;
        };
        let mut next = taken + 1;
        let mut fits = Vec::new();
        (1..items.len()).all(|at| match self.item(&items[at..], next, 0, &mut fits) {
            Ok(then) => {
                next = then;
                true
            }
            Err(_) => false,
        })
    }
}
