using Portwitness.Contracts.V1;

namespace Portwitness.Reports;

/// <summary>How text is laid out.</summary>
/// <param name="Color">Whether words may be coloured; a report says the same without.</param>
/// <param name="Width">Columns at which long sentences wrap. Words, hexadecimal ones above all, are never cut.</param>
public sealed record TextStyle(bool Color, int Width)
{
    /// <summary>For files and pipes: no colour, 100 columns.</summary>
    public static TextStyle Plain { get; } = new(false, 100);

    internal string Severity(Severity severity) => severity switch
    {
        Contracts.V1.Severity.Violation => Paint("violation", 31),
        Contracts.V1.Severity.Mismatch => Paint("mismatch", 35),
        Contracts.V1.Severity.Caution => Paint("caution", 33),
        Contracts.V1.Severity.Note => Paint("note", 36),
        _ => "finding",
    };

    internal string Verdict(Verdict verdict) => verdict switch
    {
        Contracts.V1.Verdict.Holds => Paint("HOLDS", 32),
        Contracts.V1.Verdict.Fails => Paint("FAILS", 31),
        _ => Paint("CANNOT TELL", 33),
    };

    internal string Heading(string text) => Paint(text, 1);

    private string Paint(string text, int code) => Color ? $"\u001b[{code}m{text}\u001b[0m" : text;
}
