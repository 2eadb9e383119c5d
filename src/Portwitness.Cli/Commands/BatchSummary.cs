using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Commands;

/// <summary>How many products came out how.</summary>
internal sealed class BatchSummary
{
    private readonly Dictionary<Verdict, int> _counts = [];
    private int _unreadable;

    /// <summary>The gravest of the products' exit codes.</summary>
    public int ExitCode { get; private set; }

    public void Add(Verdict verdict, int exitCode)
    {
        _counts[verdict] = _counts.GetValueOrDefault(verdict) + 1;
        ExitCode = Math.Max(ExitCode, exitCode);
    }

    public void AddUnreadable()
    {
        _unreadable++;
        ExitCode = Cli.ExitCode.Unusable;
    }

    public void Write(TextWriter writer)
    {
        Line("products", _counts.Values.Sum() + _unreadable);
        Line("holds", _counts.GetValueOrDefault(Verdict.Holds));
        Line("fails", _counts.GetValueOrDefault(Verdict.Fails));
        Line("cannot tell", _counts.GetValueOrDefault(Verdict.CannotTell));
        Line("cannot be read", _unreadable);

        void Line(string name, int count) =>
            writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name,-14}  {count,6}"));
    }
}
