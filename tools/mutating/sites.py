"""What could be changed in a source: one operator, constant, comparison, sign or call at a time.

A change is said twice: `plain`, as a programmer would have written it, for people; and `form`, which holds both, for the program in which
the environment chooses (mutant.hpp). SWITCH stands there for the change's own switch.
"""
import collections
import re

from source import Source

# kind; what stands there, in words for people; [start, end) of the text and what replaces it: plainly, and in the form that holds both.
Change = collections.namedtuple("Change", "kind path line column start end plain form declared")

COMPARISONS = {
    "<": [("<=", "less_to_less_or_equal"), (">=", "less_to_greater_or_equal")],
    "<=": [("<", "less_or_equal_to_less"), (">", "less_or_equal_to_greater")],
    ">": [(">=", "greater_to_greater_or_equal"), ("<=", "greater_to_less_or_equal")],
    ">=": [(">", "greater_or_equal_to_greater"), ("<", "greater_or_equal_to_less")],
    "==": [("!=", "equal_to_unequal")],
    "!=": [("==", "unequal_to_equal")],
}
OPERATORS = {"+": ("-", "minus"), "-": ("+", "plus"), "*": ("/", "over"), "/": ("*", "times")}
ASSIGNMENTS = {"+=": ("-=", "negated"), "-=": ("+=", "negated"), "*=": ("/=", "inverted"), "/=": ("*=", "inverted")}

# Calls of one name for another with the same arguments; and those of one argument that is handed on instead.
OTHER_CALL = {"min": "max", "max": "min", "floor": "ceil", "ceil": "floor", "round": "floor", 
              "sin": "cos", "cos": "sin", "log": "log10", "log10": "log", "exp": "exp2", "cbrt": "sqrt", "all_of": "any_of",
              "any_of": "all_of", "none_of": "any_of", "lower_bound": "upper_bound", "upper_bound": "lower_bound",
              "min_element": "max_element", "max_element": "min_element", "isfinite": "isnan", "log2": "log", "hypot": "max"}
HANDED_ON = {"abs", "sqrt", "fabs", "square"}
# Either order of the first two arguments is the same.
EITHER_ORDER = {"min", "max", "hypot", "swap", "abs_difference"}
KEYWORDS = {"if", "for", "while", "switch", "return", "sizeof", "catch", "decltype", "alignof", "noexcept", "throw", "new", "delete",
            "static_cast", "const_cast", "reinterpret_cast", "case", "else", "do", "alignas", "requires", "operator", "explicit"}
FOLLOW_UNARY = {"(", "[", "{", ",", "=", "return", "?", ":", "&&", "||", "+", "-", "*", "/", "<", ">", "<=", ">=", "==", "!=",
                "+=", "-=", "*=", "/="}

FLOAT = re.compile(r"^(?P<value>(?:\d[\d']*\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(?P<end>[fFlL]?)$")
WHOLE = re.compile(r"^(?P<value>\d[\d']*)(?P<end>[uUlLzZ]*)$")


def other_numbers(text):
    """A number by about a tenth or by one more and one less, in the same form."""
    if WHOLE.match(text):
        value, end = WHOLE.match(text).group("value", "end")
        value = int(value.replace("'", ""))
        return [f"{value + 1}{end}"] + ([f"{value - 1}{end}"] if value else [])
    match = FLOAT.match(text)
    if not match:
        return []
    value = float(match.group("value").replace("'", ""))
    if value == 0.0:
        return ["1.0" + match.group("end")]
    changed = f"{value * 1.1:.12g}"
    if not re.search(r"[.e]", changed):
        changed += ".0"
    return [changed + match.group("end")]


class Finder:
    def __init__(self, path, text):
        self.source = Source(path, text)
        self.tokens = self.source.tokens
        self.found = []

    def text(self, first, last):
        """Of tokens first to last, last not among them."""
        return self.source.text[self.tokens[first].start:self.tokens[last - 1].end]

    def add(self, kind, first, last, plain, form):
        start, end = self.tokens[first].start, self.tokens[last - 1].end
        if "//" in self.source.text[start:end]:
            return
        word = self.source.constant_word(first)
        declared = None if word is None else (word.start, word.end, self.tokens[first].frame)
        self.found.append(Change(kind, self.source.path, self.source.line(start), self.source.column(start), start, end, plain, form, declared))

    def before(self, i):
        return self.tokens[i - 1].text if i else ""

    def all(self):
        for i, token in enumerate(self.tokens):
            if not self.source.may_change(i):
                continue
            if token.kind == "mark":
                self.mark(i, token)
            elif token.kind == "number":
                self.number(i, token)
            elif token.kind == "name":
                self.name(i, token)
        return self.found

    def mark(self, i, token):
        text = token.text
        if token.spaced and text in COMPARISONS:
            for plain, name in COMPARISONS[text]:
                self.add("comparison", i, i + 1, plain, f"{text} mutant::{name}(SWITCH) {text}")
        elif token.spaced and text in OPERATORS and not (text == "+" and self.joins_text(i)):
            plain, name = OPERATORS[text]
            self.add("operator", i, i + 1, plain, f"{text} mutant::{name}(SWITCH) {text}")
        elif token.spaced and text in ASSIGNMENTS:
            plain, name = ASSIGNMENTS[text]
            self.add("operator", i, i + 1, plain, f"{text} mutant::{name}(SWITCH) {text}")
        elif text in ("-", "!") and not token.spaced and self.before(i) in FOLLOW_UNARY:
            if text == "-" and self.tokens[i + 1].kind in ("name", "number") or text == "-" and self.tokens[i + 1].text == "(":
                self.add("sign", i, i + 1, "", "mutant::without_sign(SWITCH)->*")
            elif text == "!":
                self.add("logic", i, i + 1, "", "mutant::without_not(SWITCH)->*")
        elif token.spaced and text in ("&&", "||"):
            self.logic(i, text)

    def joins_text(self, i):
        """Whether + is of texts, as far as can be told without types: then it has no other."""
        near = self.tokens[max(0, i - 1):i + 2]
        if any(token.kind == "number" for token in near):
            return False
        j = i
        while j < len(self.tokens) and self.tokens[j].text != ";" and self.tokens[j].chunk == self.tokens[i].chunk:
            j += 1
        return any(token.kind == "string" for token in self.tokens[self.tokens[i].chunk:j])

    def side(self, i, step):
        """The last token on that side of the operand of && or || at i."""
        closing, j = ({"(", "[", "{"}, i - 1) if step < 0 else ({")", "]", "}"}, i + 1)
        ends = {"&&", "||", ";", ",", "?", ":", "=", "return"}
        while 0 <= j < len(self.tokens):
            token = self.tokens[j]
            if token.kind in ("mark", "name") and (token.text in ends or token.text in closing):
                break
            if token.pair is not None and (token.pair < j) == (step < 0):
                j = token.pair
            j += step
        return j - step

    def logic(self, i, text):
        first, last = self.side(i, -1), self.side(i, 1)
        if first >= i or last <= i:
            return
        left, right = self.text(first, i), self.text(i + 1, last + 1)
        other = "||" if text == "&&" else "&&"
        # With neighbours of the same word the other word would bind otherwise.
        ends = (self.tokens[first - 1].text, self.tokens[last + 1].text if last + 1 < len(self.tokens) else "")
        if text not in ends and other not in ends:
            self.add("logic", first, last + 1, f"{left} {other} {right}",
                     f"(SWITCH.on() ? (({left}) {other} ({right})) : (({left}) {text} ({right})))")
        self.add("logic", i, last + 1, "", f"{text} ({'SWITCH.on() ||' if text == '&&' else '!SWITCH.on() &&'} ({right}))")

    def number(self, i, token):
        before = self.before(i)
        if before == "[" and self.tokens[i + 1].text == "]" and self.tokens[i - 2].kind != "name" and self.tokens[i - 2].text not in (")", "]"):
            return
        if before in ("<", ">>", "<<") and not self.tokens[i - 1].spaced:
            return
        for other in other_numbers(token.text):
            self.add("constant", i, i + 1, other, f"mutant::value(SWITCH, {token.text}, {other})")

    def name(self, i, token):
        if i + 1 >= len(self.tokens):
            return
        if token.text == "if" and self.tokens[i + 1].text == "(" and self.tokens[i + 1].pair:
            close = self.tokens[i + 1].pair
            inner = self.text(i + 2, close)
            if ";" not in inner and self.before(i) != "else":
                self.add("logic", i + 2, close, f"!({inner})", f"SWITCH.on() != static_cast<bool>({inner})")
            return
        # A call: name, perhaps with types in angle brackets, and its arguments.
        if token.text in KEYWORDS:
            return
        opening = i + 1
        if self.tokens[opening].text == "<" and not self.tokens[opening].spaced:
            while opening < len(self.tokens) and self.tokens[opening].text not in ("(", ")", ";", "{"):
                opening += 1
            if self.before(opening) != ">":
                return
        if opening >= len(self.tokens) or self.tokens[opening].text != "(" or not self.tokens[opening].pair:
            return
        close = self.tokens[opening].pair
        first = i
        while first >= 2 and self.tokens[first - 1].text in ("::", ".", "->") and self.tokens[first - 2].kind == "name":
            first -= 2
        if self.tokens[first - 1].text in ("::", ".", "->", ">", "&", "*", "new", "operator", "]", ")") and \
                not self.tokens[first - 1].spaced or self.tokens[first - 1].kind == "name" and \
                self.tokens[first - 1].text not in ("return", "else"):
            return
        self.call(first, i, opening, close)

    def arguments(self, opening, close):
        """First and last token of each argument, last not among them."""
        parts, j, first = [], opening + 1, opening + 1
        while j < close:
            token = self.tokens[j]
            if token.pair is not None and token.pair > j:
                j = token.pair
            elif token.text == ",":
                parts.append((first, j))
                first = j + 1
            j += 1
        return parts + [(first, close)] if close > opening + 1 else []

    def call(self, first, i, opening, close):
        name, whole = self.tokens[i].text, self.text(first, close + 1)
        arguments = [self.text(a, b) for a, b in self.arguments(opening, close) if a < b]
        after = self.tokens[close + 1].text if close + 1 < len(self.tokens) else ""
        if after == ";" and self.tokens[i].chunk == first and len(self.tokens[first:i]) != 0 or \
                after == ";" and self.tokens[i].chunk == first and name[0].islower():
            self.add("call", first, close + 1, "", f"if (!SWITCH.on()) {whole}")
            return
        head, rest = self.text(first, i + 1), self.source.text[self.tokens[i].end:self.tokens[close].end]
        if name in OTHER_CALL and arguments:
            other = head[:len(head) - len(name)] + OTHER_CALL[name] + rest
            self.add("call", first, close + 1, other, f"(SWITCH.on() ? {other} : {whole})")
        elif name in HANDED_ON and len(arguments) == 1:
            self.add("call", first, close + 1, f"({arguments[0]})", f"(SWITCH.on() ? ({arguments[0]}) : {whole})")
        elif len(arguments) >= 2 and name not in EITHER_ORDER and arguments[0] != arguments[1] and "=" not in arguments[0]:
            (a, b), (c, d) = self.arguments(opening, close)[:2]
            text = self.source.text
            other = (text[self.tokens[first].start:self.tokens[a].start] + self.text(c, d) + text[self.tokens[b - 1].end:self.tokens[c].start] +
                     self.text(a, b) + text[self.tokens[d - 1].end:self.tokens[close].end])
            self.add("order", first, close + 1, other, f"(SWITCH.on() ? {other} : {whole})")


def changes(path, text):
    return Finder(path, text).all()
