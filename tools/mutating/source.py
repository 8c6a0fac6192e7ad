"""A source file in tokens, and where among them a change may stand: in bodies and in the values of constants."""
import bisect
import re

TOKEN = re.compile(r"""
    (?P<space>\s+|//[^\n]*|/\*.*?\*/)
  | (?P<directive>^[ \t]*\#(?:[^\n\\]|\\.|\\\n)*)
  | (?P<string>(?:u8|[uUL])?R"(?P<mark>[^(\s]*)\(.*?\)(?P=mark)"\w*|(?:u8|[uUL])?"(?:[^"\\\n]|\\.)*"\w*)
  | (?P<char>(?:u8|[uUL])?'(?:[^'\\\n]|\\.)+')
  | (?P<number>\.?[0-9](?:'?[0-9a-zA-Z_]|[eEpP][+-]|\.)*)
  | (?P<name>[A-Za-z_]\w*)
  | (?P<mark_>->\*|<<=|>>=|<=>|\.\.\.|::|->|\+\+|--|&&|\|\||[-+*/%&|^<>=!]=|<<|>>|.)
""", re.VERBOSE | re.DOTALL | re.MULTILINE)

OPEN = {"(": ")", "[": "]", "{": "}"}
# Before the brace of a body, beside a closing bracket.
BEFORE_BODY = {")", "const", "noexcept", "mutable", "override", "final", "else", "do", "try"}
# What a statement begins with that holds no value that is worked out as the program runs.
NO_VALUE = {"static_assert", "case", "using", "template", "typedef", "friend", "concept", "extern", "goto"}


class Token:
    __slots__ = ("kind", "text", "start", "end", "spaced", "frame", "chunk", "pair")

    def __init__(self, kind, text, start, end):
        self.kind, self.text, self.start, self.end = kind, text, start, end
        self.spaced = False  # a space on either side: of two values, since the sources are formatted
        self.frame = None    # the kind of the innermost braces that aren't a list of values
        self.chunk = 0       # the token that its statement begins with
        self.pair = None     # the bracket's other one


class Source:
    """tokens: without spaces and comments; the preprocessor's lines are left out."""

    def __init__(self, path, text):
        self.path, self.text = path, text
        self.starts = [0] + [m.end() for m in re.finditer("\n", text)]
        self.tokens = []
        for match in TOKEN.finditer(text):
            kind = match.lastgroup if match.lastgroup != "mark" else "string"
            if kind not in ("space", "directive"):
                self.tokens.append(Token(kind.rstrip("_"), match.group(), match.start(), match.end()))
        for token in self.tokens:
            token.spaced = text[token.start - 1:token.start].isspace() and text[token.end:token.end + 1].isspace()
        self._frames()

    def line(self, offset):
        return bisect.bisect_right(self.starts, offset)

    def column(self, offset):
        return offset - self.starts[self.line(offset) - 1] + 1

    def line_text(self, number):
        end = self.starts[number] if number < len(self.starts) else len(self.text)
        return self.text[self.starts[number - 1]:end].rstrip("\n")

    def _frames(self):
        stack = []  # (index of the bracket, kind)
        chunk = 0
        for i, token in enumerate(self.tokens):
            kinds = [kind for _, kind in stack]
            token.frame = next((k for k in reversed(kinds) if k not in ("paren", "init")), "namespace")
            token.chunk = chunk
            text = token.text if token.kind == "mark" else ""
            if text in OPEN:
                kind = "paren" if text != "{" else self._kind_of_brace(i, chunk, token.frame)
                stack.append((i, kind))
                if kind not in ("paren", "init"):
                    chunk = i + 1
            elif text in (")", "]", "}") and stack:
                j, kind = stack.pop()
                token.pair, self.tokens[j].pair = j, i
                token.frame = self.tokens[j].frame
                if kind not in ("paren", "init"):
                    # Behind a lambda's body the statement goes on.
                    chunk = self.tokens[j].chunk if any(k in ("paren", "init") for _, k in stack) or kind == "lambda" else i + 1
                token.chunk = self.tokens[j].chunk
            elif text == ";":
                if not stack or stack[-1][1] != "paren":
                    chunk = i + 1
            elif text == ":" and i and self.tokens[i - 1].text in ("public", "private", "protected"):
                chunk = i + 1

    def _kind_of_brace(self, i, chunk, frame):
        words = [t.text for t in self.tokens[chunk:i]]
        before = words[-1] if words else ""
        if "namespace" in words and frame == "namespace":
            return "namespace"
        if "enum" in words and ")" not in words:
            return "enum"
        if before in BEFORE_BODY or not words or before == "]" and self._captures(i - 1):
            return "lambda" if frame in ("body", "lambda") and ("=" in words or "return" in words or "(" in words) and \
                before == ")" and self._is_lambda(i - 1) else "body"
        if "=" not in words and any(w in ("struct", "class", "union") for w in words) and ")" not in words:
            return "type"
        if ")" in words and ("requires" in words or before == "}" and ":" in words):
            return "body"
        # A type behind an arrow.
        for word in reversed(words):
            if word == "->":
                return "lambda" if frame in ("body", "lambda") else "body"
            if not re.match(r"\w|::|<|>|,|\*|&|\.\.\.", word) or word in ("return", "if", "for", "while"):
                break
        if "template" in words and any(w in ("struct", "class", "union") for w in words) and "(" not in words:
            return "type"
        return "init"

    def _captures(self, i):
        """Whether the square bracket that closes at i is a lambda's."""
        j = self.tokens[i].pair
        return j is not None and (j == 0 or self.tokens[j - 1].kind == "mark" and self.tokens[j - 1].text not in (")", "]"))

    def _is_lambda(self, i):
        j = self.tokens[i].pair
        return j is not None and j > 0 and self.tokens[j - 1].text == "]"

    def statement(self, i):
        """The tokens of the statement before token i."""
        return self.tokens[self.tokens[i].chunk:i]

    def may_change(self, i):
        """Whether token i is one of a body, or of a constant's or a member's own value."""
        token = self.tokens[i]
        before = [t.text for t in self.statement(i)]
        if before and (before[0] in NO_VALUE or "static_assert" in before):
            return False
        if "operator" in before[-3:] or before[:2] == ["if", "constexpr"]:
            return False
        if token.frame in ("body", "lambda"):
            return True
        if token.frame not in ("namespace", "type"):
            return False
        head = []
        for word in before:
            if word in ("=", "{"):
                return "(" not in head and "template" not in head and "operator" not in head and "enum" not in head
            head.append(word)
        return False

    def constant_word(self, i):
        """The token `constexpr` of the declaration whose value token i is in, or None."""
        for token in self.statement(i):
            if token.text == "constexpr":
                return token
            if token.text in ("=", "{", "("):
                return None
        return None
