"""The types in samelight.pyi beside the module: the same public names, parameters and defaults, and a docstring for each."""
import ast
import inspect
import pathlib
import re
import unittest

import samelight

STUB = pathlib.Path(samelight.__file__).parent / "samelight.pyi"
TREE = ast.parse(STUB.read_text(encoding="utf-8"))
CLASSES = {node.name: node for node in TREE.body if isinstance(node, ast.ClassDef)}


def public(names):
    return {name for name in names if not name.startswith("_") or name == "__version__"}


def members(name):
    """The names in a class of the stub and in those it is made from there, with their nodes."""
    found = {}
    for base in CLASSES[name].bases:
        if isinstance(base, ast.Name) and base.id in CLASSES and base.id != "SamelightError":
            found |= members(base.id)
    for node in CLASSES[name].body:
        if isinstance(node, ast.FunctionDef):
            found[node.name] = node
        elif isinstance(node, ast.AnnAssign):
            found[node.target.id] = node
    return found


def parameters_in_stub(node):
    """[(name, default or "")] but for self; a default as it is written."""
    arguments = node.args
    places = arguments.posonlyargs + arguments.args
    defaults = [None] * (len(places) - len(arguments.defaults)) + arguments.defaults
    both = list(zip(places, defaults)) + list(zip(arguments.kwonlyargs, arguments.kw_defaults))
    return [(a.arg, ast.unparse(d) if d else "") for a, d in both if a.arg != "self"]


def parameters_in_module(function):
    """The same, from the line that the docstring begins with."""
    line = function.__doc__.splitlines()[0]
    tree = ast.parse(re.sub(r"<[^>]*>", "None", re.sub(r"= \w+\(.*?\)(?=[,)])", "= ...", "def " + line.split(" -> ")[0] + ": pass")))
    return parameters_in_stub(tree.body[0])


class Stub(unittest.TestCase):
    def test_has_the_names_of_the_module(self):
        stub = {n.name for n in TREE.body if isinstance(n, (ast.ClassDef, ast.FunctionDef))}
        stub |= {n.target.id for n in TREE.body if isinstance(n, ast.AnnAssign)}
        self.assertEqual(public(stub), public(dir(samelight)))

    def test_has_the_members_of_every_class(self):
        for name in public(CLASSES):
            own = getattr(samelight, name)
            if issubclass(own, Exception):
                continue
            self.assertEqual(public(members(name)), public(dir(own)), name)
            for special in ("__len__", "_repr_html_", "_fields"):
                self.assertEqual(special in members(name), hasattr(own, special), (name, special))

    def test_has_the_parameters_of_every_function(self):
        functions = [(n.name, n, getattr(samelight, n.name)) for n in TREE.body if isinstance(n, ast.FunctionDef)]
        for name in public(CLASSES):
            own = getattr(samelight, name)
            functions += [(f"{name}.{member}", node, getattr(own, member)) for member, node in members(name).items()
                          if isinstance(node, ast.FunctionDef) and not node.decorator_list and not member.startswith("_")]
        self.assertGreater(len(functions), 30)
        for name, node, own in functions:
            self.assertEqual([p for p, _ in parameters_in_stub(node)], [p for p, _ in parameters_in_module(own)], name)
            for (parameter, stub), (_, real) in zip(parameters_in_stub(node), parameters_in_module(own)):
                self.assertEqual(stub == "", real == "", (name, parameter))
                if "..." not in (stub, real) and stub:
                    self.assertEqual(ast.literal_eval(stub), ast.literal_eval(real), (name, parameter))

    def test_every_name_has_words(self):
        self.assertTrue(samelight.__doc__)
        for name in public(dir(samelight)) - {"__version__"}:
            own = getattr(samelight, name)
            self.assertTrue(own.__doc__ and own.__doc__.strip(), name)
            if inspect.isclass(own) and not issubclass(own, Exception):
                for member in public(dir(own)):
                    words = (getattr(own, member).__doc__ or "").splitlines()
                    # A function's first line is its signature.
                    self.assertTrue(any(w.strip() and " -> " not in w for w in words), (name, member))
            elif not inspect.isclass(own):
                self.assertGreater(len(own.__doc__.splitlines()), 2, name)


if __name__ == "__main__":
    unittest.main()
