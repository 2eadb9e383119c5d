using Portwitness.Contracts.V1;

namespace Portwitness.History;

/// <summary>Which entries are wanted. What is empty or null fits everything.</summary>
public sealed record ReportQuery
{
    /// <summary>So many are given when nothing is said.</summary>
    public const int Usual = 50;

    /// <summary>The most that are given at once.</summary>
    public const int Largest = 1000;

    /// <summary>The product's name, or a part of it; upper and lower case are the same in every script, and "ß" is "ss".</summary>
    public string Product { get; init; } = "";

    /// <summary>The sample.</summary>
    public string Sample { get; init; } = "";

    /// <summary>The firmware version.</summary>
    public string Firmware { get; init; } = "";

    /// <summary>A rule that has findings.</summary>
    public string Rule { get; init; } = "";

    /// <summary>The verdict; unspecified fits all.</summary>
    public Verdict Verdict { get; init; }

    /// <summary>First kept at or after this time.</summary>
    public DateTimeOffset? Since { get; init; }

    /// <summary>First kept before this time.</summary>
    public DateTimeOffset? Until { get; init; }

    /// <summary>Entries with smaller numbers: the last one of the page before.</summary>
    public long? Before { get; init; }

    /// <summary>At most so many.</summary>
    public int Most { get; init; } = Usual;
}

/// <summary>What is told of an entry without opening its report.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Product">The product's name.</param>
/// <param name="Sample">The sample; empty where not stated.</param>
/// <param name="Firmware">The firmware version; empty where not stated.</param>
/// <param name="Verdict">The verdict.</param>
/// <param name="ToolVersion">The tool that judged.</param>
/// <param name="Counts">Findings: violations, mismatches, cautions, notes.</param>
/// <param name="FirstSeen">When it was kept.</param>
/// <param name="LastSeen">When the same input came for the last time.</param>
public sealed record StoredReport(
    long Id, string Product, string Sample, string Firmware, Verdict Verdict, string ToolVersion, FindingCounts Counts, DateTimeOffset FirstSeen,
    DateTimeOffset LastSeen);

/// <summary>How many findings of each severity.</summary>
public sealed record FindingCounts(int Violations, int Mismatches, int Cautions, int Notes);
