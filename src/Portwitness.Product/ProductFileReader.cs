using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Product.Energy;
using Portwitness.Product.Pack;
using Portwitness.Product.Signalling;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads the text of a product.yaml. What is wrong is reported with its place; the rest is still read.</summary>
public static class ProductFileReader
{
    /// <summary>Longest text, in characters.</summary>
    public const int MaxCharacters = 1 << 20;

    internal static readonly string[] Members =
    [
        "product", "sample", "firmware", "label", "labels", "label_corrections", "ratings", "ports", "signalling", "captures", "offers", "loads", "discharges", "battery",
        "adapter", "parts", "converters", "teardown", "claims", "opened", "state",
        "travel", "soaks", "touch",
    ];

    internal static readonly string[] PortMembers = ["cable", "also"];

    private const int MaxCaptures = 10_000;
    private const int MaxLogs = 1_000;
    private const int MaxCorrections = 200;
    private const int MaxSignals = 1_000;

    private static readonly string ExpectedSignal =
        "a word such as bc1.2-dcp, type-c-3A, ufcs, divider-2.7V-2.7V or the name of a non-public scheme was expected, with \"no-\" before it where "
        + $"the port does not answer; at most {MaxSignals} of them";

    /// <summary>Reads a product file.</summary>
    public static ProductFile Read(string text)
    {
        if (text.Length > MaxCharacters)
        {
            return Unreadable(0, 0, $"a product file has at most {MaxCharacters} characters, this one {text.Length}");
        }

        try
        {
            return YamlTreeReader.Read(text) switch
            {
                YamlMap map => new Reading().Read(map),
                null => Unreadable(1, 1, "the file is empty; it needs at least \"product:\" and \"label:\" or \"captures:\""),
                { } other => Unreadable(other.Line, other.Column, "\"product:\", \"label:\" and \"captures:\" were expected"),
            };
        }
        catch (YamlFaultException fault)
        {
            return Unreadable(fault.Line, fault.Column, $"not readable as YAML: {fault.Message}");
        }
    }

    private static ProductFile Unreadable(int line, int column, string detail) =>
        new() { Faults = [new CaptureFault(line, column, ProductFaultCodes.Unreadable, detail)] };

    private sealed class Reading
    {
        private readonly YamlValues _values = new();
        private readonly ProductCaptureReader _captures;

        public Reading() => _captures = new ProductCaptureReader(_values);

        public ProductFile Read(YamlMap map)
        {
            ProductFile product = new();
            foreach ((YamlText key, YamlNode value) in _values.Entries(map, "the product file"))
            {
                product = key.Text switch
                {
                    "product" => product with { Product = _values.Text(value, "product") ?? "" },
                    "sample" => product with { Sample = _values.Text(value, "sample") ?? "" },
                    "firmware" => product with { Firmware = _values.Text(value, "firmware") ?? "" },
                    "label" => LabelMember.Read(product, value, _values),
                    "labels" => product with { Labels = new LabelsReader(_values).Read(value) },
                    "label_corrections" => product with { Corrections = Corrections(value) },
                    "ratings" => product with { Ratings = RatingsReader.Read(value, _values) },
                    "ports" => Ports(product, value),
                    "signalling" => product with { Signalling = Signalling(value) },
                    "captures" => product with { Captures = Captures(value), NamesCaptures = value is not YamlList { Items.Count: 0 } },
                    "offers" => Offers(product, value),
                    "loads" => Loads(product, value),
                    "discharges" => product with { Logs = product.Logs.AddRange(Logs(value)) },
                    "soaks" => product with { Logs = product.Logs.AddRange(new SoaksReader(_values).Read(value)) },
                    "touch" => product with { Touch = new SoaksReader(_values).Touch(value) },
                    "battery" => Battery(product, value),
                    "adapter" => product with { Adapter = new EnergyReader(_values).Adapter(value) },
                    "parts" => new PartsReader(_values).Read(product, value),
                    "converters" => product with { Converters = new ConvertersReader(_values).Read(value) },
                    "teardown" => new TeardownReader(_values).Read(product, value),
                    "claims" => product with { Claims = new ClaimsReader(_values).Read(value) },
                    "opened" => product with { Opened = _values.Date(value, "opened") },
                    "state" => product with { State = new HandlingReader(_values).State(value) },
                    "travel" => new HandlingReader(_values).Travel(product, value),
                    _ => Unknown(product, key),
                };
            }

            product = WithLedger(WithPhotos(WithFirstLabel(product)));
            if (!product.StatesAnything && _values.Faults.TrueForAll(static fault => fault.Code != ProductFaultCodes.PathLeavesFolder))
            {
                _values.Fault(map, ProductFaultCodes.NoCaptures, "nothing is named that can be judged; add \"label:\", and \"captures:\" with a file and its port");
            }

            if (product is { Ratings: not null } and ({ Label: not null } or { LabelFile: not null }))
            {
                _values.Fault(map, ProductFaultCodes.ValueWrong, "\"label:\" and \"ratings:\" are both given; the label is read, the ratings are not");
            }

            CheckClocks(product);
            return product with { Faults = [.. _values.Faults] };
        }

        private ProductFile Battery(ProductFile product, YamlNode value)
        {
            (StatedCells? cells, PackBuild? build) = new BatteryReader(_values).Read(value);
            return product with { Cells = cells, Pack = build };
        }

        // What "parts:" says of a part goes before the ledger.
        private static ProductFile WithLedger(ProductFile product) => product with
        {
            Parts = [.. product.Parts, .. product.LedgerParts.Where(part => !product.Parts.Any(own => own.Name == part.Name))],
            Controllers = [.. product.Controllers, .. product.LedgerControllers.Where(one => !product.Controllers.Any(own => own.Name == one.Name))],
        };

        // The first of several labels is the product's, unless "label:" is given.
        private static ProductFile WithFirstLabel(ProductFile product) => product.Labels.IsEmpty ? product
            : product is { Label: null, LabelFile: null, Ratings: null } && product.Labels[0] is var first
                ? product with
                {
                    Label = first.Text, LabelFile = first.File, LabelName = first.Name, Corrections = [.. product.Corrections, .. first.Corrections],
                    LabelIsChecked = first.IsChecked,
                    Labels = product.Labels.RemoveAt(0),
                }
                : product with { LabelName = product.Ratings is null ? "label" : "ratings" };

        private void CheckClocks(ProductFile product)
        {
            HashSet<string> files = [.. product.Captures.Select(capture => capture.File)];
            foreach ((string file, string with, YamlNode at) in _captures.Clocks.Where(clock => clock.File == clock.With || !files.Contains(clock.With)))
            {
                _values.Fault(
                    at, ProductFaultCodes.ValueWrong, $"\"with: {with}\" names no other capture of this product; name the file on whose clock {file} is");
            }
        }

        private ProductFile Offers(ProductFile product, YamlNode value)
        {
            TypedOffersReader reader = new(_values);
            TypedOffers[] all = [.. _values.Items(value, "offers", MaxCaptures).Select(reader.Read).OfType<TypedOffers>()];
            return product with { Offers = [.. all.Where(static one => one.Photo is null)], DisplayPhotos = [.. all.Where(static one => one.Photo is not null)] };
        }

        // A photo is opened and read as captures are.
        private static ProductFile WithPhotos(ProductFile product) => product.DisplayPhotos.IsEmpty ? product : product with
        {
            NamesCaptures = true,
            Captures =
            [
                .. product.Captures,
                .. product.DisplayPhotos.Select(static one => new ProductCapture(one.Photo!, one.Port, one.InUse)
                {
                    DisplayPhotoChecked = one.IsChecked, UnderContract = one.UnderContract == true,
                }),
            ],
        };

        private ImmutableArray<(string, string)> Signalling(YamlNode value)
        {
            List<(string, string)> seen = [];
            foreach ((YamlText port, YamlNode words) in _values.Entries(value, "signalling"))
            {
                foreach (YamlNode item in words is YamlText ? [words] : _values.Items(words, port.Text))
                {
                    string whole = item is YamlText { Text: var text } ? text : "";
                    bool isOne = SignallingWord.Read(whole) is null or { Kind: not SignallingKind.NonPublic };
                    string[] texts = isOne ? [whole] : whole.Split([',', ';'], StringSplitOptions.TrimEntries);
                    foreach (string word in texts)
                    {
                        if (seen.Count < MaxSignals && SignallingWord.Read(word) is not null)
                        {
                            seen.Add((port.Text, word));
                        }
                        else
                        {
                            _values.Fault(item, ProductFaultCodes.ValueWrong, ExpectedSignal);
                        }
                    }
                }
            }

            return [.. seen];
        }

        private ProductFile Unknown(ProductFile product, YamlText key)
        {
            _values.Unknown(key, "a product file", Members);
            return product;
        }

        private ProductFile Ports(ProductFile product, YamlNode value)
        {
            ImmutableDictionary<string, bool>.Builder captive = ImmutableDictionary.CreateBuilder<string, bool>();
            ImmutableArray<ImmutableArray<string>>.Builder names = ImmutableArray.CreateBuilder<ImmutableArray<string>>();
            foreach ((YamlText port, YamlNode facts) in _values.Entries(value, "ports"))
            {
                foreach ((YamlText fact, YamlNode stated) in _values.Entries(facts, port.Text))
                {
                    string? word = fact.Text == "cable" ? _values.Text(stated, "cable") : null;
                    if (word is "captive" or "detachable")
                    {
                        captive[port.Text] = word == "captive";
                    }
                    else if (fact.Text == "also")
                    {
                        names.Add([port.Text, .. Names(stated)]);
                    }
                    else if (fact.Text != "cable")
                    {
                        _values.Unknown(fact, "a port", PortMembers);
                    }
                    else
                    {
                        _values.Fault(fact, ProductFaultCodes.ValueWrong, "\"cable: captive\" or \"cable: detachable\" was expected");
                    }
                }
            }

            CheckNames(value, names);
            return product with { CaptivePorts = captive.ToImmutable(), PortNames = names.ToImmutable() };
        }

        private IEnumerable<string> Names(YamlNode node) => node is YamlText only
            ? [only.Text]
            : _values.Items(node, "also").Select(item => _values.Text(item, "also")).OfType<string>();

        // A name that means two ports means none.
        private void CheckNames(YamlNode at, IEnumerable<ImmutableArray<string>> names)
        {
            HashSet<string> seen = [];
            foreach (string name in names.SelectMany(static group => group.DistinctBy(Labels.PortNames.Key)).Where(name => !seen.Add(Labels.PortNames.Key(name))))
            {
                _values.Fault(at, ProductFaultCodes.ValueWrong, $"\"{name}\" is given as a name of two ports; keep it at the one that it means");
            }
        }

        private ImmutableArray<ProductCorrection> Corrections(YamlNode value) =>
        [
            .. _values.Items(value, "label_corrections", MaxCorrections).Select(item => LabelCorrectionReader.Read(item, _values))
                .OfType<ProductCorrection>(),
        ];

        private ImmutableArray<ProductLog> Logs(YamlNode value)
        {
            ProductLogReader reader = new(_values);
            return [.. _values.Items(value, "discharges", MaxLogs).Select(reader.Read).OfType<ProductLog>()];
        }

        private ProductFile Loads(ProductFile product, YamlNode value)
        {
            ProductLoadReader reader = new(_values);
            (ProductLog? Log, LoadReading? Reading)[] all = [.. _values.Items(value, "loads", MaxLogs).Select(reader.Read)];
            return product with
            {
                Logs = product.Logs.AddRange(all.Select(static one => one.Log).OfType<ProductLog>()),
                Loads = [.. all.Select(static one => one.Reading).OfType<LoadReading>().Where(static one => one.Inputs.IsEmpty)],
                PassThrough = [.. all.Select(static one => one.Reading).OfType<LoadReading>().Where(static one => !one.Inputs.IsEmpty)],
            };
        }

        private ImmutableArray<ProductCapture> Captures(YamlNode value) =>
            [.. _values.Items(value, "captures", MaxCaptures).Select(_captures.Read).OfType<ProductCapture>()];
    }
}
