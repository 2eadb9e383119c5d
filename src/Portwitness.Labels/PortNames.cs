using System.Buffers;

namespace Portwitness.Labels;

/// <summary>The names of ports, as labels, captures and product files write them.</summary>
public static class PortNames
{
    /// <summary>The name of the only output of a label that names no output.</summary>
    public const string Unnamed = "OUT";

    private static readonly string[] Outputs = ["OUTPUT", "AUSGANG", "SORTIE", "SALIDA", "输出"];

    private static readonly string[] Types = ["TYPE", "TYP", "TIPO", "タイプ", "타입"];

    private static readonly SearchValues<char> NumberCharacters = SearchValues.Create(" -0123456789");

    /// <summary>
    /// The printed name without a leading "USB" and "Type" where the rest is enough: "USB-C1", "Type-C1" and "USB Type-C 1"
    /// are "C1", "USB-A" is "A". "USB", "USB1" and "OUT1" stay: what would be left is no name.
    /// </summary>
    public static string Shorten(string printed)
    {
        ArgumentNullException.ThrowIfNull(printed);
        string name = printed.Trim();
        ReadOnlySpan<char> rest = WithoutPrefix(name, "USB");
        foreach (string type in Types)
        {
            rest = WithoutPrefix(rest, type);
        }

        return rest.Length == name.Length || !IsConnectorLetter(rest)
            ? name : string.Concat(char.ToUpperInvariant(rest[0]).ToString(), rest[1..].ToString().Replace(" ", "", StringComparison.Ordinal));
    }

    /// <summary>
    /// Whether both names mean the same port: upper and lower case, spaces, hyphens and a "USB" or "Type" in front do not
    /// matter, and "Output 1" is "OUT1".
    /// </summary>
    public static bool Same(string? a, string? b) =>
        a is not null && b is not null && string.Equals(Key(a), Key(b), StringComparison.Ordinal);

    /// <summary>Whether a name of a combination's port is that of a wireless pad.</summary>
    public static bool IsPad(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return WordParts.Find(name.AsSpan().TrimEnd("0123456789 ")) == Term.Wireless;
    }

    /// <summary>Whether the name is that of a receptacle with this letter: "C", "C1".</summary>
    internal static bool IsOfKind(string name, char letter) => name.Length > 0 && name[0] == letter && !name.AsSpan(1).ContainsAnyExceptInRange('0', '9');

    /// <summary>Whether the name leaves it open that the port is USB-C: USB-A and the smaller ones of the B family have no CC line.</summary>
    internal static bool MaySpeakPowerDelivery(string name) =>
        name.Length > 0 && name[0] is not ('A' or 'B') && !name.StartsWith("Micro", StringComparison.OrdinalIgnoreCase);

    /// <summary>Equal for names of the same port, as <see cref="Same"/> has it.</summary>
    public static string Key(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        string upper = Shorten(name).ToUpperInvariant();
        string plain = string.Concat(upper.Where(static c => char.IsLetterOrDigit(c)));
        foreach (string output in Outputs)
        {
            if (plain.StartsWith(output, StringComparison.Ordinal))
            {
                return string.Concat("OUT", plain.AsSpan(output.Length));
            }
        }

        return plain;
    }

    private static ReadOnlySpan<char> WithoutPrefix(ReadOnlySpan<char> name, string prefix) =>
        name.StartsWith(prefix, StringComparison.OrdinalIgnoreCase) ? name[prefix.Length..].TrimStart(" -_") : name;

    // "A", "C", "C1", "A 2", "C-1": a receptacle's letter, then at most a number.
    private static bool IsConnectorLetter(ReadOnlySpan<char> rest) =>
        rest.Length is > 0 and <= 5 && char.ToUpperInvariant(rest[0]) is 'A' or 'B' or 'C'
        && !rest[1..].ContainsAnyExcept(NumberCharacters);
}
