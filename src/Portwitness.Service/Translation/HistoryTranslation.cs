using Portwitness.History;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Entries of the store.</summary>
internal static class HistoryTranslation
{
    public static Wire.StoredReport ToContract(this StoredReport report) => new()
    {
        Id = report.Id,
        Product = report.Product,
        Sample = report.Sample,
        Firmware = report.Firmware,
        Verdict = report.Verdict,
        ToolVersion = report.ToolVersion,
        Violations = report.Counts.Violations,
        Mismatches = report.Counts.Mismatches,
        Cautions = report.Counts.Cautions,
        Notes = report.Counts.Notes,
        FirstSeenUs = UnixMicroseconds.Of(report.FirstSeen),
        LastSeenUs = UnixMicroseconds.Of(report.LastSeen),
    };
}
