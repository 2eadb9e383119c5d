#pragma warning disable CS1591
namespace Portwitness.Labels;
public static class PortNames { public static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase); }
