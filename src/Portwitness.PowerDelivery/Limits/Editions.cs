namespace Portwitness.PowerDelivery.Limits;

/// <summary>Editions of the standard; several together are those that the evidence leaves open.</summary>
/// <remarks>R3.2 stands for R3.2v1.1 (October 2024), the edition that the rules quote.</remarks>
[Flags]
public enum Editions
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Revision 1.0 (2012).</summary>
    R10 = 1,

    /// <summary>Revision 2.0 (2014 to 2017).</summary>
    R20 = 2,

    /// <summary>Revision 3.0 (2015 to 2019).</summary>
    R30 = 4,

    /// <summary>Revision 3.1 (2021 to 2023).</summary>
    R31 = 8,

    /// <summary>Revision 3.2 (since October 2023).</summary>
    R32 = 16,

    /// <summary>What a message header that says "3.x" leaves open (R3.2v1.1, 6.2.1.1.5).</summary>
    R3x = R30 | R31 | R32,

    /// <summary>Those that know EPR (R3.1 introduced it).</summary>
    WithEpr = R31 | R32,

    /// <summary>All.</summary>
    All = R10 | R20 | R3x,
}

/// <summary>Names of editions.</summary>
public static class EditionNames
{
    private static readonly (Editions Edition, string Name)[] Named =
    [
        (Editions.R10, "R1.0"), (Editions.R20, "R2.0"), (Editions.R30, "R3.0"), (Editions.R31, "R3.1"),
        (Editions.R32, "R3.2"),
    ];

    /// <summary>Reads one edition's name, "R3.2" or "3.2"; false when the text is none.</summary>
    public static bool TryParse(string text, out Editions edition)
    {
        foreach ((Editions candidate, string name) in Named)
        {
            if (string.Equals(text, name, StringComparison.OrdinalIgnoreCase) || text == name[1..])
            {
                edition = candidate;
                return true;
            }
        }

        edition = Editions.None;
        return false;
    }

    /// <summary>What the Specification Revision field of a header leaves open (R3.2v1.1, 6.2.1.1.5); 3 says nothing.</summary>
    public static Editions FromRevisionCode(int code) => code switch
    {
        0 => Editions.R10,
        1 => Editions.R20,
        2 => Editions.R3x,
        _ => Editions.All,
    };

    /// <summary>The edition of a revision number, 3 and 2 for "R3.2"; none for a number that is no edition.</summary>
    public static Editions FromRevision(int major, int minor) => (major, minor) switch
    {
        (1, 0) => Editions.R10,
        (2, 0) => Editions.R20,
        (3, 0) => Editions.R30,
        (3, 1) => Editions.R31,
        (3, 2) => Editions.R32,
        _ => Editions.None,
    };

    /// <summary>"R3.1" and so on, one for each edition.</summary>
    public static IEnumerable<string> Names(this Editions editions) =>
        Named.Where(name => editions.HasFlag(name.Edition)).Select(name => name.Name);

    /// <summary>
    /// "R2.0" for one edition, "R3.0..R3.2" for several in a row, "R2.0, R3.2" for others, "unknown" for all or none.
    /// </summary>
    public static string ToText(this Editions editions)
    {
        string[] open = [.. editions.Names()];
        if (open.Length == 0 || open.Length == Named.Length)
        {
            return "unknown";
        }

        int lowest = (int)editions & -(int)editions;
        bool inARow = (((int)editions / lowest) + 1) == 1 << open.Length;
        return open.Length > 1 && inARow ? $"{open[0]}..{open[^1]}" : string.Join(", ", open);
    }
}
