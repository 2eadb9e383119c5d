using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>An article held against a report: what does not agree first, each with its line, its sentence and the evidence.</summary>
public static class ProofText
{
    private static readonly (string Outcome, string Heading)[] Order =
    [
        ("differs", "Differs from the record"), ("converted_wrongly", "Converted wrongly"), ("contradicts", "Says something else of the same port elsewhere"),
        ("not_measured", "Said as measured, and not measured"), ("no_evidence", "Without evidence in the record"), ("agrees", "Agrees"),
    ];

    /// <summary>Writes the proof; amounts that agree only when all are wanted.</summary>
    public static void Write(TextWriter writer, ArticleProof proof, bool isAll, TextStyle style)
    {
        ArgumentNullException.ThrowIfNull(proof);
        ProofCounts counts = proof.Counts;
        writer.WriteLine(
            $"{VisibleText.Of(proof.Article)} against {VisibleText.Of(proof.Product)}: {Amounts.Count(counts.Amounts, "amount", "amounts")}. Agree: {counts.Agrees}; "
            + $"differ: {counts.Differs}; converted wrongly: {counts.ConvertedWrongly}; contradicted: {counts.Contradicts}; said as measured, and not: "
            + $"{counts.NotMeasured}; without evidence: {counts.NoEvidence}.");
        foreach ((string outcome, string heading) in Order)
        {
            ProofEntry[] entries = [.. proof.Entries.Where(entry => entry.Outcome == outcome)];
            if (entries.Length == 0 || (outcome == "agrees" && !isAll))
            {
                continue;
            }

            writer.WriteLine();
            writer.WriteLine(style.Heading(heading));
            foreach (ProofEntry entry in entries)
            {
                writer.WriteLine($"  {Amounts.Place(entry.Line, entry.Column)}: {VisibleText.Of(entry.Text)}: {VisibleText.Of(entry.Evidence)}");
                if (outcome != "agrees")
                {
                    writer.WriteLine($"    \"{VisibleText.Of(entry.Sentence)}\"");
                }
            }
        }

        if (proof.Unlisted > 0)
        {
            writer.WriteLine($"and {Amounts.Count(proof.Unlisted, "other amount", "other amounts")}");
        }
    }
}
