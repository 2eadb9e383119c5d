namespace Portwitness.Reports.Proofing;

/// <summary>What an amount of an article measures, and the unit that it is kept in.</summary>
internal enum ArticleDimension
{
    /// <summary>V.</summary>
    Voltage,

    /// <summary>A.</summary>
    Current,

    /// <summary>W.</summary>
    Power,

    /// <summary>Wh.</summary>
    Energy,

    /// <summary>Ah.</summary>
    Charge,

    /// <summary>mm.</summary>
    Length,

    /// <summary>g.</summary>
    Mass,

    /// <summary>°C.</summary>
    Temperature,

    /// <summary>Parts of one.</summary>
    Ratio,

    /// <summary>s.</summary>
    Time,

    /// <summary>Hz.</summary>
    Frequency,
}

/// <summary>A unit as articles write it.</summary>
/// <param name="Written">Its symbol or word.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">How many of the dimension's unit it is.</param>
/// <param name="IsWord">A word, in any case; a symbol has one.</param>
/// <param name="Offset">What is added after the factor: 32 °F are 0 °C.</param>
internal sealed record ArticleUnit(string Written, ArticleDimension Dimension, decimal Factor, bool IsWord = false, decimal Offset = 0)
{
    // The inch is 25.4 mm and the pound 453.59237 g exactly (international yard and pound, 1959).
    private const decimal Inch = 25.4m;
    private const decimal Pound = 453.59237m;

    /// <summary>All units.</summary>
    public static IReadOnlyList<ArticleUnit> All { get; } =
    [
        .. new ArticleUnit[]
        {
            new("V", ArticleDimension.Voltage, 1), new("mV", ArticleDimension.Voltage, 0.001m), new("kV", ArticleDimension.Voltage, 1000),
            new("A", ArticleDimension.Current, 1), new("mA", ArticleDimension.Current, 0.001m),
            new("W", ArticleDimension.Power, 1), new("mW", ArticleDimension.Power, 0.001m), new("kW", ArticleDimension.Power, 1000),
            new("Wh", ArticleDimension.Energy, 1), new("mWh", ArticleDimension.Energy, 0.001m), new("kWh", ArticleDimension.Energy, 1000),
            new("Ah", ArticleDimension.Charge, 1), new("mAh", ArticleDimension.Charge, 0.001m),
            new("mm", ArticleDimension.Length, 1), new("cm", ArticleDimension.Length, 10), new("m", ArticleDimension.Length, 1000),
            new("in", ArticleDimension.Length, Inch), new("\"", ArticleDimension.Length, Inch), new("″", ArticleDimension.Length, Inch),
            new("g", ArticleDimension.Mass, 1), new("kg", ArticleDimension.Mass, 1000), new("oz", ArticleDimension.Mass, Pound / 16),
            new("lb", ArticleDimension.Mass, Pound), new("lbs", ArticleDimension.Mass, Pound),
            new("°C", ArticleDimension.Temperature, 1), new("℃", ArticleDimension.Temperature, 1),
            new("°F", ArticleDimension.Temperature, 5m / 9, Offset: -160m / 9),
            new("%", ArticleDimension.Ratio, 0.01m), new("Hz", ArticleDimension.Frequency, 1), new("kHz", ArticleDimension.Frequency, 1000),
            new("h", ArticleDimension.Time, 3600), new("min", ArticleDimension.Time, 60), new("s", ArticleDimension.Time, 1),
            new("ms", ArticleDimension.Time, 0.001m),
        },
        .. Words(ArticleDimension.Voltage, 1, "volt", "volts", "伏", "伏特"), .. Words(ArticleDimension.Current, 1, "amp", "amps", "ampere", "amperes", "安", "安培"),
        .. Words(ArticleDimension.Power, 1, "watt", "watts", "瓦", "瓦特"), .. Words(ArticleDimension.Energy, 1, "watt-hours", "watt hours", "wattstunden", "瓦时"),
        .. Words(ArticleDimension.Charge, 0.001m, "毫安时"), .. Words(ArticleDimension.Length, Inch, "inch", "inches", "zoll", "英寸"),
        .. Words(ArticleDimension.Length, 1, "毫米"), .. Words(ArticleDimension.Length, 10, "厘米"), .. Words(ArticleDimension.Mass, 1, "gram", "grams", "gramm", "克"),
        .. Words(ArticleDimension.Mass, 1000, "kilogram", "kilograms", "kilogramm", "千克", "公斤"), .. Words(ArticleDimension.Mass, Pound / 16, "ounce", "ounces", "unzen", "盎司"),
        .. Words(ArticleDimension.Mass, Pound, "pound", "pounds", "磅"), .. Words(ArticleDimension.Temperature, 1, "摄氏度", "度"),
        .. Words(ArticleDimension.Ratio, 0.01m, "percent", "per cent", "prozent"), .. Words(ArticleDimension.Time, 3600, "hour", "hours", "stunde", "stunden", "小时"),
        .. Words(ArticleDimension.Time, 60, "minute", "minutes", "minuten", "分钟"), .. Words(ArticleDimension.Time, 1, "second", "seconds", "sekunde", "sekunden", "秒"),
    ];

    /// <summary>The amount in the dimension's unit.</summary>
    public decimal Of(decimal number) => (number * Factor) + Offset;

    /// <summary>An amount of the dimension in this unit.</summary>
    public decimal In(decimal amount) => (amount - Offset) / Factor;

    private static IEnumerable<ArticleUnit> Words(ArticleDimension dimension, decimal factor, params string[] words) =>
        words.Select(word => new ArticleUnit(word, dimension, factor, IsWord: true));
}
