using Portwitness.Captures;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads one element of "discharges:" of a product file.</summary>
internal sealed class ProductLogReader(YamlValues values)
{
    internal static readonly string[] Members =
    [
        "file", "port", "at", "kind", "begun", "current", "cut_off", "longest_step", "accuracy", "measured_at", "columns", "read_on",
    ];

    /// <summary>Reads it; null, with a fault, when it names no file that may be read.</summary>
    public ProductLog? Read(YamlNode item) => Read(values.Entries(item, "discharges"), item);

    /// <summary>The same of members of a load, which are known to be those of a log.</summary>
    public ProductLog? ReadLoad(IEnumerable<(YamlText Key, YamlNode Value)> entries, YamlNode item) => Read(entries, item);

    private ProductLog? Read(IEnumerable<(YamlText Key, YamlNode Value)> entries, YamlNode item)
    {
        ProductLog log = new("", null);
        YamlNode at = item;
        foreach ((YamlText key, YamlNode value) in entries)
        {
            switch (key.Text)
            {
                case "file":
                    (log, at) = (log with { File = values.Text(value, "file") ?? "" }, value);
                    break;
                case "port":
                    log = log with { Port = values.Text(value, "port") };
                    break;
                case "at":
                    (Voltage? volts, Current? amperes) = EnergyReader.Setting(value, values);
                    log = log with { AtVoltage = volts, AtCurrent = amperes };
                    break;
                case "kind":
                    log = log with { Kind = Word(value, "kind", ("discharge", LogKind.Discharge), ("charge", LogKind.Charge)) };
                    break;
                case "begun":
                    log = log with { BegunFull = Word<bool?>(value, "begun", ("full", true), ("partly", false)) };
                    break;
                case "current":
                    log = log with
                    {
                        Sign = Word(value, "current", ("out-positive", CurrentSign.OutPositive), ("out-negative", CurrentSign.OutNegative)),
                    };
                    break;
                case "cut_off":
                    log = log with { CutOff = CutOff(value) };
                    break;
                case "longest_step":
                    log = log with { LongestStepUs = Step(value) };
                    break;
                case "accuracy":
                    log = log with { Accuracy = values.Accuracy(value) };
                    break;
                case "measured_at" when MeasuringWords.TryParsePoint(values.Text(value, "measured_at") ?? "", out MeasuringPoint point):
                    log = log with { MeasuredAt = point };
                    break;
                case "measured_at":
                    values.Fault(value, ProductFaultCodes.ValueWrong, MeasuringWords.ExpectedPoint);
                    break;
                case "read_on":
                    log = log with { ReadOn = values.Text(value, "read_on")?.Trim() ?? "" };
                    break;
                case "columns":
                    log = log with { Columns = TableProfile.Read(value, ofMeasurements: true, values) };
                    break;
                default:
                    values.Unknown(key, "a log", Members);
                    break;
            }
        }

        if (string.IsNullOrWhiteSpace(log.File))
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, "a log needs \"file:\", a table of time, volts and amps");
            return null;
        }

        if (!RelativePath.StaysInside(log.File))
        {
            values.Fault(
                at, ProductFaultCodes.PathLeavesFolder,
                $"\"{log.File}\" leaves the product's folder; put the log beside the product file and name it relative to it");
            return null;
        }

        return log;
    }

    private T? Word<T>(YamlNode node, string where, params (string Word, T Value)[] words)
    {
        string text = values.Text(node, where) ?? "";
        foreach ((string word, T value) in words)
        {
            if (word == text)
            {
                return value;
            }
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, $"{string.Join(" or ", words.Select(static one => one.Word))} was expected in \"{where}\"");
        return default;
    }

    private Voltage? CutOff(YamlNode node)
    {
        if (AmountWords.Millivolts(values.Text(node, "cut_off") ?? "") is > 0 and int millivolts)
        {
            return Voltage.FromMillivolts(millivolts);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a voltage was expected in \"cut_off\", for example 4.5V");
        return null;
    }

    private long? Step(YamlNode node)
    {
        if (AmountWords.Microseconds(values.Text(node, "longest_step") ?? "") is > 0 and long step && step <= LogIntake.MaxStepUs)
        {
            return step;
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a time of at most an hour was expected in \"longest_step\", for example 10s");
        return null;
    }
}
