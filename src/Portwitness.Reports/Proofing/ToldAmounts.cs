using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Proofing;

/// <summary>What evidence, tables and findings say in words: typed readings, sizes, masses, times.</summary>
/// <param name="list">Where the amounts go.</param>
internal sealed class ToldAmounts(AmountList list)
{
    /// <summary>Adds what a report tells.</summary>
    public void Add(ProductReport report)
    {
        foreach (Statement statement in report.Statements.Concat(report.FurtherLabels.SelectMany(static further => further.Statements)))
        {
            Add(statement.Evidence, statement.Port, $"evidence for \"{statement.Claim}\"");
        }

        foreach (PackFigure figure in report.Pack)
        {
            Add($"{figure.Basis}; {PackTable.Value(figure)}", "", $"the pack by weight, ruler and arithmetic: {figure.About}");
        }

        foreach (PartResult part in report.Parts)
        {
            Add($"{part.Rating}; {Amounts.Volts(part.HasRatedMv ? part.RatedMv : null)}, {Amounts.Amperes(part.HasRatedMa ? part.RatedMa : null)}", "", $"part {part.Part}");
        }

        foreach (TeardownEntry entry in report.Teardown)
        {
            Add(entry.Ratings, "", $"teardown: {entry.Ref}");
        }

        foreach (JudgedClaim claim in report.Claims)
        {
            Add(claim.Evidence, claim.Port, $"evidence for \"{claim.Text}\"");
        }

        foreach (Finding finding in report.Findings)
        {
            Add($"{finding.Detail} {finding.Observed}", finding.Port, $"finding {finding.Rule}");
        }
    }

    private void Add(string words, string port, string where)
    {
        foreach (ArticleAmount amount in new ArticleReader(words).Amounts)
        {
            list.Add(amount.Unit.Dimension, amount.Value - amount.Slack, amount.Value + amount.Slack, port, "", RecordKind.Told, where);
        }
    }
}
