//! Expressions and quantities out of tokens.
//!
//! The grammar gives factors and operators in a row; which binds first is
//! settled here. Nothing is calculated.

use super::walk::Walk;
use crate::number::{Misread, number};
use crate::parse::{Node, Rule};
use crate::tree::{Expr, ExprKind, Number, Operator, Sign, Single, SingleKind, Unit};
use snell_text::Span;

/// An operator between two factors.
enum Joined {
    Terms(Sign),
    Factors(Operator),
}

impl Walk<'_> {
    /// Terms joined by `+` and `-`.
    pub(super) fn expression(&mut self) -> Result<Expr, Misread> {
        let first = self.product()?;
        let mut rest = Vec::new();
        while let Some(Joined::Terms(sign)) = self.operator() {
            self.at += 1;
            rest.push((sign, self.product()?));
        }
        Ok(match rest.last() {
            None => first,
            Some((_, last)) => Expr {
                span: first.span.to(last.span),
                kind: ExprKind::Sum(Box::new(first), rest),
            },
        })
    }

    fn product(&mut self) -> Result<Expr, Misread> {
        let first = self.factor()?;
        let mut rest = Vec::new();
        while let Some(Joined::Factors(operator)) = self.operator() {
            self.at += 1;
            rest.push((operator, self.factor()?));
        }
        Ok(match rest.last() {
            None => first,
            Some((_, last)) => Expr {
                span: first.span.to(last.span),
                kind: ExprKind::Product(Box::new(first), rest),
            },
        })
    }

    fn operator(&self) -> Option<Joined> {
        let token = self.peek().filter(|token| token.span.start < self.until)?;
        match token.rule {
            Rule::star => Some(Joined::Factors(Operator::Times)),
            Rule::sign => Some(match self.written(token) {
                "+" => Joined::Terms(Sign::Plus),
                "-" | "–" | "—" | "−" => Joined::Terms(Sign::Minus),
                "/" | "÷" => Joined::Factors(Operator::Over),
                _ => Joined::Factors(Operator::Times),
            }),
            _ => None,
        }
    }

    fn factor(&mut self) -> Result<Expr, Misread> {
        let token = self.expect();
        match token.rule {
            Rule::name => self.path_or_call(token),
            Rule::number | Rule::size => self.quantity(token),
            Rule::day => Ok(Expr {
                kind: ExprKind::Single(Single {
                    kind: SingleKind::Day,
                    span: token.span,
                }),
                span: token.span,
            }),
            Rule::group => {
                let inner = self.within(token, Self::expression)?;
                Ok(Expr {
                    kind: inner.kind,
                    span: token.span,
                })
            }
            rule => unreachable!("{rule:?} opens no factor"),
        }
    }

    fn path_or_call(&mut self, name: Node) -> Result<Expr, Misread> {
        let mut span = name.span;
        let name = self.word(name);
        if let Some(arguments) = self.take(Rule::arguments) {
            return Ok(Expr {
                kind: ExprKind::Call(name, self.within(arguments, Self::arguments)?),
                span: span.to(arguments.span),
            });
        }
        let mut path = vec![name];
        while let Some(part) = self.take(Rule::part) {
            span = span.to(part.span);
            path.push(self.word(part));
        }
        Ok(Expr {
            kind: ExprKind::Path(path),
            span,
        })
    }

    fn arguments(&mut self) -> Result<Vec<Expr>, Misread> {
        let before = self.pending.len();
        while self.peek().is_some_and(|token| token.span.start < self.until) {
            let argument = self.expression()?;
            self.pending.push(argument);
        }
        Ok(self.pending.drain(before..).collect())
    }

    fn quantity(&mut self, token: Node) -> Result<Expr, Misread> {
        let low = self.single(token)?;
        if self
            .take(Rule::until)
            .or_else(|| self.take(Rule::range))
            .is_none()
        {
            return Ok(Expr {
                span: low.span,
                kind: ExprKind::Single(low),
            });
        }
        let high = self.expect();
        let high = self.single(high)?;
        if let Some(third) = self.take(Rule::range) {
            return Err(Misread::ThirdEnd(third.span));
        }
        Ok(Expr {
            span: low.span.to(high.span),
            kind: ExprKind::Spread(Box::new(low), Box::new(high)),
        })
    }

    fn single(&mut self, token: Node) -> Result<Single, Misread> {
        let mut span = token.span;
        if token.rule == Rule::size {
            return Ok(Single {
                kind: SingleKind::Size(Span::new(span.start + 1, span.end)),
                span,
            });
        }
        let Some(tail) = self.peek() else {
            return self.bare(token);
        };
        let kind = match tail.rule {
            Rule::unit | Rule::mark | Rule::symbol => {
                self.at += 1;
                let unit = Unit {
                    plain: self.words.unit(self.written(tail)),
                    span: tail.span,
                };
                SingleKind::Number(self.number(token)?, Some(unit))
            }
            Rule::ex => {
                self.at += 1;
                SingleKind::X(self.x_number(token)?)
            }
            Rule::inches | Rule::ounces => {
                self.at += 1;
                let second = self.expect();
                let (first, second) = (self.number(token)?, self.number(second)?);
                if tail.rule == Rule::inches {
                    SingleKind::Feet(first, second)
                } else {
                    SingleKind::Pounds(first, second)
                }
            }
            _ => return self.bare(token),
        };
        span = span.to(tail.span);
        Ok(Single { kind, span })
    }

    /// A number with nothing behind it. `2/0` is no number, but the way hooks
    /// larger than 1 are written, with or without the `#`.
    fn bare(&mut self, token: Node) -> Result<Single, Misread> {
        let span = token.span;
        let digits = self.written(token).strip_suffix("/0");
        let kind = if digits.is_some_and(|digits| digits.bytes().all(|byte| byte.is_ascii_digit())) {
            SingleKind::Size(span)
        } else {
            SingleKind::Number(self.number(token)?, None)
        };
        Ok(Single { kind, span })
    }

    /// The number of an X size. Behind noughts it counts the other way: `03X` is three sizes stouter than `0X`, and
    /// `00X` is one.
    fn x_number(&self, token: Node) -> Result<Number, Misread> {
        let number = self.number(token)?;
        let written = self.written(token);
        let stouter = match written.bytes().all(|byte| byte == b'0') {
            true => (written.len() - 1) as f64,
            false if written.starts_with('0') && written.bytes().all(|byte| byte.is_ascii_digit()) => {
                number.value
            }
            false => return Ok(number),
        };
        // Adding nothing turns -0 into 0.
        Ok(Number {
            value: 0.0 - stouter,
            ..number
        })
    }

    fn number(&self, token: Node) -> Result<Number, Misread> {
        number(self.written(token), token.span)
    }
}
