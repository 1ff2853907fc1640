//! Trees in one line of text, for tests: everything a tree says, no place.
//!
//! Numbers, units, names and joining words are shown as written; what was
//! understood (kinds, bounds, operators) is shown in one spelling.

use snell_syntax::*;

/// The line in `written` that `form` was read from.
pub fn form(form: &Form, written: &str) -> String {
    let show = Show { written };
    match form {
        Form::Use(path) => format!("use {}", show.text(*path)),
        Form::Block(head) => show.head(head),
        Form::Change(change) => {
            let mut made = format!("change {}", show.word(&change.target.name));
            if let Some(count) = change.target.count {
                made += &format!("#{count}");
            }
            made + " ->" + &show.rest(&change.items, &change.clauses, None)
        }
        Form::Bind(bind) => format!("bind {} := {}", show.word(&bind.name), show.expr(&bind.value)),
        Form::Claim(claim) => format!(
            "{} {} ? {}",
            show.word(&claim.key),
            show.expr(&claim.subject),
            show.condition(&claim.condition)
        ),
        Form::Plain(plain) => {
            show.word(&plain.key) + ":" + &show.rest(&plain.items, &plain.clauses, plain.text)
        }
    }
}

struct Show<'a> {
    written: &'a str,
}

impl Show<'_> {
    fn at(&self, span: snell_text::Span) -> &str {
        span.of(self.written)
    }

    fn word(&self, word: &Word) -> String {
        self.at(word.span).to_owned()
    }

    fn text(&self, text: Text) -> String {
        format!("{{{}}}", self.at(text.inner))
    }

    fn head(&self, head: &Head) -> String {
        let mut made = format!("@{} {}", head.kind.word(), self.word(&head.name));
        if let Some(base) = &head.base {
            made += &format!(" from {}", self.word(base));
        }
        if let Some(title) = head.title {
            made += &format!(" {}", self.text(title));
        }
        made
    }

    fn rest(&self, items: &[Expr], clauses: &[Clause], text: Option<Text>) -> String {
        let mut made = String::new();
        let mut add = |piece: String| made += &format!(" {piece}");
        items.iter().for_each(|item| add(self.expr(item)));
        for clause in clauses {
            add(format!("; {}", self.at(clause.span)));
            assert_eq!(Joint::of(self.at(clause.span)), Some(clause.joint));
            clause.items.iter().for_each(|item| add(self.expr(item)));
            clause.text.iter().for_each(|text| add(self.text(*text)));
        }
        text.iter().for_each(|text| add(self.text(*text)));
        made
    }

    fn condition(&self, condition: &Condition) -> String {
        match condition {
            Condition::Between(low, high) => format!("between {} {}", self.expr(low), self.expr(high)),
            Condition::Bound(bound, value) => {
                let word = match bound {
                    Bound::AtLeast => "at-least",
                    Bound::AtMost => "at-most",
                    Bound::About => "about",
                    Bound::Over => "over",
                    Bound::Under => "under",
                };
                format!("{word} {}", self.expr(value))
            }
            Condition::Is { negated, words } => {
                let words: Vec<_> = words.iter().map(|word| self.expr(word)).collect();
                format!("is{} {}", if *negated { "-not" } else { "" }, words.join(" "))
            }
        }
    }

    fn expr(&self, expr: &Expr) -> String {
        match &expr.kind {
            ExprKind::Single(single) => self.single(single),
            ExprKind::Spread(low, high) => format!("{}..{}", self.single(low), self.single(high)),
            ExprKind::Path(words) => {
                let words: Vec<_> = words.iter().map(|word| self.word(word)).collect();
                words.join(".")
            }
            ExprKind::Call(name, arguments) => {
                let arguments: Vec<_> = arguments.iter().map(|value| self.expr(value)).collect();
                format!("{}({})", self.word(name), arguments.join(", "))
            }
            ExprKind::Sum(first, rest) => {
                let mut made = format!("[{}", self.expr(first));
                for (sign, term) in rest {
                    let sign = if *sign == Sign::Plus { '+' } else { '-' };
                    made += &format!(" {sign} {}", self.expr(term));
                }
                made + "]"
            }
            ExprKind::Product(first, rest) => {
                let mut made = format!("[{}", self.expr(first));
                for (operator, factor) in rest {
                    let operator = if *operator == Operator::Times { '*' } else { '/' };
                    made += &format!(" {operator} {}", self.expr(factor));
                }
                made + "]"
            }
        }
    }

    fn single(&self, single: &Single) -> String {
        let number = |number: &Number| self.at(number.span).to_owned();
        match &single.kind {
            SingleKind::Feet(feet, inches) => format!("<{} feet {}>", number(feet), number(inches)),
            SingleKind::Pounds(pounds, ounces) => format!("<{} pounds {}>", number(pounds), number(ounces)),
            SingleKind::X(_) | SingleKind::Size(_) | SingleKind::Day | SingleKind::Number(_, None) => {
                format!("<{}>", self.at(single.span))
            }
            SingleKind::Number(value, Some(unit)) => format!("<{} {}>", number(value), self.at(unit.span)),
        }
    }
}
