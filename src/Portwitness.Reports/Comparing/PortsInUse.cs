using System.Collections.Immutable;

namespace Portwitness.Reports.Comparing;

/// <summary>Ports in use as part of a key: in attach order, with "+" between; a port alone needs no name beside its own.</summary>
internal static class PortsInUse
{
    /// <summary>As a key has them.</summary>
    public static string Key(IReadOnlyCollection<string> inUse) => inUse.Count > 1 ? string.Join('+', inUse) : "";

    /// <summary>One by one.</summary>
    public static ImmutableArray<string> Of(string key) => key.Length == 0 ? [] : [.. key.Split('+')];
}
