using System.Globalization;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Batches;

/// <summary>How many products came out how, and which rules have findings about how many of them.</summary>
internal sealed class BatchSummary
{
    private readonly Dictionary<Verdict, int> _counts = [];
    private readonly Dictionary<string, (int Products, long Findings)> _rules = [];
    private int _unreadable;
    private int _unwritten;
    private int _unchanged;

    /// <summary>The gravest of the products' exit codes.</summary>
    public int ExitCode { get; private set; }

    /// <summary>Counts a product.</summary>
    public void Add(BatchOutcome outcome)
    {
        BatchEntry entry = outcome.Entry;
        _unchanged += outcome.Skipped ? 1 : 0;
        ExitCode = Math.Max(ExitCode, entry.ExitCode);
        if (entry.Problem is not null)
        {
            _unwritten += outcome.IsUnwritten ? 1 : 0;
            _unreadable += outcome.IsUnwritten ? 0 : 1;
            return;
        }

        _counts[entry.Verdict] = _counts.GetValueOrDefault(entry.Verdict) + 1;
        foreach ((string rule, int findings) in entry.Findings)
        {
            (int products, long all) = _rules.GetValueOrDefault(rule);
            _rules[rule] = (products + 1, all + findings);
        }
    }

    public void Write(TextWriter writer)
    {
        Line("products", _counts.Values.Sum() + _unreadable + _unwritten);
        Line("holds", _counts.GetValueOrDefault(Verdict.Holds));
        Line("fails", _counts.GetValueOrDefault(Verdict.Fails));
        Line("cannot tell", _counts.GetValueOrDefault(Verdict.CannotTell));
        Line("cannot be read", _unreadable);
        if (_unwritten > 0)
        {
            Line("no report", _unwritten);
        }

        if (_unchanged > 0)
        {
            Line("not repeated", _unchanged);
        }

        if (_rules.Count > 0)
        {
            writer.WriteLine();
            TextTable table = new();
            table.Add("rule", "products", "findings");
            foreach ((string rule, (int products, long findings)) in _rules.OrderByDescending(entry => entry.Value.Products)
                .ThenByDescending(entry => entry.Value.Findings).ThenBy(entry => entry.Key, StringComparer.Ordinal))
            {
                table.Add(rule, Number(products), Number(findings));
            }

            table.Write(writer, "");
        }

        void Line(string name, int count) =>
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-14}  {count,6}"));
    }

    private static string Number(long count) => count.ToString(CultureInfo.InvariantCulture);
}
