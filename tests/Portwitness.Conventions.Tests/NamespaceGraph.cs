using Mono.Cecil;
using Mono.Cecil.Cil;

namespace Portwitness.Conventions.Tests;

/// <summary>One type of an assembly that uses another one of it.</summary>
internal readonly record struct TypeUse(string User, string Used);

/// <summary>Which namespaces of one assembly use which, read from its compiled types. What the compiler leaves no trace of (constants) is not seen.</summary>
internal sealed class NamespaceGraph
{
    private readonly Dictionary<string, Dictionary<string, HashSet<TypeUse>>> _uses = [];

    /// <summary>Reads an assembly.</summary>
    /// <param name="path">Its file.</param>
    public static NamespaceGraph Read(string path)
    {
        NamespaceGraph graph = new();
        using ModuleDefinition module = ModuleDefinition.ReadModule(path);
        foreach (TypeDefinition type in module.GetTypes())
        {
            foreach (TypeReference used in References(type).SelectMany(Parts))
            {
                if (used.Scope == module)
                {
                    graph.Add(Outermost(type), Outermost(used));
                }
            }
        }

        return graph;
    }

    /// <summary>Namespaces that use each other, directly or by way of others; each group once, in the order of their names.</summary>
    public IEnumerable<string[]> Cycles()
    {
        Dictionary<string, HashSet<string>> reached = _uses.Keys.ToDictionary(from => from, Reachable);
        return _uses.Keys.Order(StringComparer.Ordinal)
            .Where(name => reached[name].Contains(name))
            .GroupBy(name => string.Join(' ', reached[name].Where(other => reached.TryGetValue(other, out HashSet<string>? back) && back.Contains(name)).Order(StringComparer.Ordinal)))
            .Select(group => group.Key.Split(' '));
    }

    /// <summary>The uses from one namespace of a cycle to another, a line each.</summary>
    public IEnumerable<string> UsesWithin(string[] cycle) =>
        from name in cycle
        from target in _uses[name]
        where cycle.Contains(target.Key)
        orderby target.Value.Count
        select $"{name} -> {target.Key}: {string.Join(", ", target.Value.Select(use => $"{use.User} uses {use.Used}").Order(StringComparer.Ordinal).Take(30))}";

    private HashSet<string> Reachable(string from)
    {
        HashSet<string> found = [];
        Stack<string> open = new([from]);
        while (open.TryPop(out string? at))
        {
            if (!_uses.TryGetValue(at, out Dictionary<string, HashSet<TypeUse>>? targets))
            {
                continue;
            }

            foreach (string next in targets.Keys.Where(found.Add))
            {
                open.Push(next);
            }
        }

        return found;
    }

    private void Add(TypeReference user, TypeReference used)
    {
        bool isOurs = user.Namespace.StartsWith("Portwitness", StringComparison.Ordinal) && used.Namespace.StartsWith("Portwitness", StringComparison.Ordinal);
        if (!isOurs || user.Namespace == used.Namespace)
        {
            return;
        }

        if (!_uses.TryGetValue(user.Namespace, out Dictionary<string, HashSet<TypeUse>>? targets))
        {
            _uses.Add(user.Namespace, targets = []);
        }

        if (!targets.TryGetValue(used.Namespace, out HashSet<TypeUse>? uses))
        {
            targets.Add(used.Namespace, uses = []);
        }

        uses.Add(new TypeUse(user.Name, used.Name));
    }

    private static IEnumerable<TypeReference> References(TypeDefinition type)
    {
        IEnumerable<TypeReference?> found =
        [
            type.BaseType,
            .. type.Interfaces.Select(one => one.InterfaceType),
            .. type.CustomAttributes.Select(attribute => attribute.AttributeType),
            .. type.GenericParameters.SelectMany(parameter => parameter.Constraints).Select(constraint => constraint.ConstraintType),
            .. type.Fields.Select(field => field.FieldType),
            .. type.Methods.SelectMany(References),
        ];
        return found.OfType<TypeReference>();
    }

    private static IEnumerable<TypeReference> References(MethodDefinition method)
    {
        IEnumerable<TypeReference> signature = method.Parameters.Select(parameter => parameter.ParameterType)
            .Append(method.ReturnType)
            .Concat(method.GenericParameters.SelectMany(parameter => parameter.Constraints).Select(constraint => constraint.ConstraintType));
        return !method.HasBody ? signature : signature
            .Concat(method.Body.Variables.Select(variable => variable.VariableType))
            .Concat(method.Body.ExceptionHandlers.Select(handler => handler.CatchType).OfType<TypeReference>())
            .Concat(method.Body.Instructions.SelectMany(Operands));
    }

    private static IEnumerable<TypeReference> Operands(Instruction instruction) => instruction.Operand switch
    {
        TypeReference type => [type],
        FieldReference field => [field.DeclaringType, field.FieldType],
        GenericInstanceMethod method => [method.DeclaringType, method.ReturnType, .. method.GenericArguments],
        MethodReference method => [method.DeclaringType, method.ReturnType],
        _ => [],
    };

    // A list of something uses the something.
    private static IEnumerable<TypeReference> Parts(TypeReference type) => type switch
    {
        GenericInstanceType generic => generic.GenericArguments.SelectMany(Parts).Append(generic.ElementType),
        TypeSpecification { ElementType: { } element } => Parts(element),
        GenericParameter => [],
        _ => [type],
    };

    private static TypeReference Outermost(TypeReference type) => type.DeclaringType is { } outer ? Outermost(outer) : type;
}
