using Portwitness.Reports.Text;

namespace Portwitness.Reports.Proofing;

/// <summary>Amounts of a record as they are found, and the ports that they are of.</summary>
internal sealed class AmountList
{
    private readonly List<RecordedAmount> _all = [];
    private readonly HashSet<string> _ports = [];

    /// <summary>All amounts.</summary>
    public IReadOnlyList<RecordedAmount> All => _all;

    /// <summary>The ports that are named.</summary>
    public IReadOnlyCollection<string> Ports => _ports;

    /// <summary>Adds both ends of a range of voltages, in mV.</summary>
    public void AddRange(int leastMv, int mostMv, string port, RecordKind kind, string where)
    {
        Add(ArticleDimension.Voltage, leastMv / 1000m, leastMv / 1000m, port, "", kind, where);
        Add(ArticleDimension.Voltage, mostMv / 1000m, mostMv / 1000m, port, "", kind, where);
    }

    /// <summary>Adds what is stated of a mode, in mV, mA and mW; its power is reckoned where only the others are.</summary>
    public void AddMode(string port, int? milliamperes, int? milliwatts, int? millivolts, RecordKind kind, string where, bool isTogether = false)
    {
        if (millivolts is { } volts)
        {
            Add(ArticleDimension.Voltage, volts / 1000m, volts / 1000m, port, "", kind, where, isTogether);
        }

        if (milliamperes is { } amperes)
        {
            Add(ArticleDimension.Current, amperes / 1000m, amperes / 1000m, port, "", kind, where, isTogether);
        }

        if ((milliwatts ?? (int?)Amounts.Milliwatts(millivolts, milliamperes)) is { } watts)
        {
            AddPower(port, watts, kind, where, isTogether);
        }
    }

    /// <summary>Adds a power in mW.</summary>
    public void AddPower(string port, int milliwatts, RecordKind kind, string where, bool isTogether = false, bool isMaximum = false) =>
        Add(ArticleDimension.Power, milliwatts / 1000m, milliwatts / 1000m, port, "", kind, where, isTogether, isMaximum);

    /// <summary>Adds an amount between two values, in the unit of its dimension.</summary>
    public void Add(
        ArticleDimension dimension, decimal least, decimal most, string port, string topic, RecordKind kind, string where, bool isTogether = false, bool isMaximum = false)
    {
        if (port.Length > 0)
        {
            _ports.Add(port);
        }

        _all.Add(new RecordedAmount(dimension, least, most, port, topic, kind, where) { IsTogether = isTogether, IsMaximum = isMaximum });
    }
}
