using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads one element of "loads:" of a product file: a port under load, as a log or as what was read.</summary>
internal sealed class ProductLoadReader(YamlValues values)
{
    private const string Needed =
        "a load needs \"port:\", \"at:\" with the printed voltage, and \"file:\" with a log or \"measured:\" with what was read, for example "
        + "{port: A, at: 5V 3A, measured: 4.92V 3.00A, for: 10min}";

    // What a log of a load has besides what a reading has.
    private static readonly string[] OfLogs = ["file", "current", "longest_step", "columns"];

    internal static readonly string[] Members = ["port", "at", "in_use", "input_left", "measured", "for", "read_on", "accuracy", "measured_at", .. OfLogs];

    /// <summary>Reads it as a log or as a reading; both null, with a fault, when it is neither.</summary>
    public (ProductLog? Log, LoadReading? Reading) Read(YamlNode item)
    {
        Fields all = new();
        List<(YamlText, YamlNode)> ofLog = [];
        foreach ((YamlText key, YamlNode value) in values.Entries(item, "loads"))
        {
            if (!Read(all, key, value))
            {
                if (!OfLogs.Contains(key.Text))
                {
                    values.Unknown(key, "a load", Members);
                }

                ofLog.Add((key, value));
            }
        }

        bool isLog = ofLog.Exists(static entry => entry.Item1.Text == "file");
        if (all.Port is not { Length: > 0 } port || all.At is not { } at || isLog == (all.Measured is not null))
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, Needed);
            return (null, null);
        }

        if (isLog)
        {
            if (!all.Inputs.IsEmpty || all.InputLeft)
            {
                values.Fault(item, ProductFaultCodes.ValueWrong, "{C: in} and \"input_left:\" go with \"measured:\", not with a log");
                return (null, null);
            }

            return (Log(item), null);
        }

        if (all.InputLeft && all.Inputs.IsEmpty)
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, "\"input_left:\" needs the input that left, as in_use: [{C: in}, {A: out}]");
            return (null, null);
        }

        (Voltage volts, Current amperes) = all.Measured!.Value;
        return (null, new LoadReading(port, at, volts, amperes)
        {
            InUse = all.InUse.IsEmpty ? [port] : all.InUse, ForUs = all.ForUs, Accuracy = all.Accuracy, MeasuredAt = all.MeasuredAt, Line = item.Line,
            Inputs = all.Inputs, InputLeft = all.InputLeft, ReadOn = all.ReadOn,
        });

        // The pack need not have been full, and need not run empty.
        ProductLog? Log(YamlNode node) =>
            new ProductLogReader(values).ReadLoad(ofLog, node) is { } log
                ? log with
                {
                    Port = port, AtVoltage = at, AtCurrent = all.AtCurrent, InUse = all.InUse, Accuracy = all.Accuracy, MeasuredAt = all.MeasuredAt,
                    BegunFull = false, ReadOn = all.ReadOn,
                }
                : null;
    }

    private bool Read(Fields all, YamlText key, YamlNode value)
    {
        switch (key.Text)
        {
            case "port":
                all.Port = values.Text(value, "port");
                return true;
            case "at":
                (all.At, all.AtCurrent) = EnergyReader.Setting(value, values);
                return true;
            case "in_use":
                InUse(all, value);
                return true;
            case "input_left":
                all.InputLeft = values.Truth(value, key.Text) == true;
                return true;
            case "read_on":
                all.ReadOn = values.Text(value, key.Text)?.Trim() ?? "";
                return true;
            case "measured":
                all.Measured = Amounts(value);
                return true;
            case "for":
                all.ForUs = Time(value);
                return true;
            case "accuracy":
                all.Accuracy = values.Accuracy(value);
                return true;
            case "measured_at":
                if (MeasuringWords.TryParsePoint(values.Text(value, "measured_at") ?? "", out MeasuringPoint point))
                {
                    all.MeasuredAt = point;
                }
                else
                {
                    values.Fault(value, ProductFaultCodes.ValueWrong, MeasuringWords.ExpectedPoint);
                }

                return true;
            default:
                return false;
        }
    }

    // A name, or {C: in} and {A: out}.
    private void InUse(Fields all, YamlNode node)
    {
        List<string> ports = [], inputs = [];
        foreach (YamlNode item in values.Items(node, "in_use"))
        {
            if (item is not YamlMap { Entries: [var (port, role)] })
            {
                ports.AddRange(values.Text(item, "in_use") is { } name ? [name] : []);
            }
            else if (role is YamlText { Text: "in" or "out" } word)
            {
                ports.Add(port.Text);
                inputs.AddRange(word.Text == "in" ? [port.Text] : []);
            }
            else
            {
                values.Fault(role, ProductFaultCodes.ValueWrong, "a port in use takes power or gives it, as [{C: in}, {A: out}]");
            }
        }

        (all.InUse, all.Inputs) = ([.. ports], [.. inputs]);
    }

    private (Voltage, Current)? Amounts(YamlNode node)
    {
        string[] words = (values.Text(node, "measured") ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words is [var volts, var amperes] && AmountWords.Millivolts(volts) is >= 0 and int millivolts && AmountWords.Milliamperes(amperes) is >= 0 and int milliamperes)
        {
            return (Voltage.FromMillivolts(millivolts), Current.FromMilliamperes(milliamperes));
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a voltage and a current were expected in \"measured\", for example 4.92V 3.00A");
        return null;
    }

    private long? Time(YamlNode node)
    {
        if (AmountWords.Microseconds(values.Text(node, "for") ?? "") is > 0 and long time)
        {
            return time;
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a time was expected in \"for\", for example 10min");
        return null;
    }

    private sealed class Fields
    {
        public string? Port { get; set; }

        public Voltage? At { get; set; }

        public Current? AtCurrent { get; set; }

        public ImmutableArray<string> InUse { get; set; } = [];

        public ImmutableArray<string> Inputs { get; set; } = [];

        public bool InputLeft { get; set; }

        public string ReadOn { get; set; } = "";

        public (Voltage, Current)? Measured { get; set; }

        public long? ForUs { get; set; }

        public MeasuringAccuracy? Accuracy { get; set; }

        public MeasuringPoint MeasuredAt { get; set; }
    }
}
