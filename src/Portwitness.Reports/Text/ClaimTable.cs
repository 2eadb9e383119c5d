using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What a box or a page says beyond the label.</summary>
internal static class ClaimTable
{
    /// <summary>The heading of the table.</summary>
    public const string Title = "Claimed beside the label";

    /// <summary>The table with its heading; nothing without claims.</summary>
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.Claims.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(Title));
        Of(report).Write(writer, "  ");
    }

    /// <summary>A row a claim.</summary>
    public static TextTable Of(ProductReport report)
    {
        TextTable table = new();
        table.Add("verdict", "claim", "where", "evidence");
        foreach (JudgedClaim claim in report.Claims)
        {
            table.Add(ProductText.Word(claim.Verdict), claim.Text, claim.Source, claim.Evidence);
        }

        return table;
    }
}
