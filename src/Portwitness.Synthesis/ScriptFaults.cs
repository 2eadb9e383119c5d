using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Text.Yaml;

namespace Portwitness.Synthesis;

/// <summary>Collects what is wrong with a script, each with the place of the value that it was found in.</summary>
internal sealed class ScriptFaults
{
    private const int Most = 1000;

    // Faults quote the script, which may be long.
    private const int MaxCharacters = 600;

    private readonly List<CaptureFault> _faults = [];

    /// <summary>Whether nothing is wrong.</summary>
    public bool IsEmpty => _faults.Count == 0;

    /// <summary>All of them, as they stand in the script.</summary>
    public ImmutableArray<CaptureFault> InOrder() => [.. _faults.OrderBy(fault => fault.Line).ThenBy(fault => fault.Column)];

    /// <summary>Adds one.</summary>
    public void Add(YamlNode at, string code, string detail)
    {
        if (_faults.Count < Most)
        {
            string shown = detail.Length > MaxCharacters ? detail[..MaxCharacters] + "..." : detail;
            _faults.Add(new CaptureFault(at.Line, at.Column, code, shown));
        }
    }

    /// <summary>Reads something; with a fault, gives something else instead.</summary>
    public T Try<T>(YamlNode at, Func<T> read, T otherwise)
    {
        try
        {
            return read();
        }
        catch (ScriptFault fault)
        {
            Add(at, fault.Code, fault.Message);
            return otherwise;
        }
    }

    /// <summary>Reads something.</summary>
    public void Try(YamlNode at, Action read) => Try(
        at,
        () =>
        {
            read();
            return true;
        },
        false);
}
