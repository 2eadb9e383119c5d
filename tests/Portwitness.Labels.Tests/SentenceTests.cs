namespace Portwitness.Labels.Tests;

/// <summary>
/// Sentences about ports and powers, as leaflets have them. What they say is plain reading; no source. A sentence is read only where each of its
/// words is known.
/// </summary>
public sealed class SentenceTests
{
    private const string Alone = "1 C1 max 65 W";
    private const string Both = "1 together C1+C2 = C1 45 W, C2 20 W";
    private const string All = "1 together C1+C2+A = C1 40 W, C2 15 W, A 10 W";
    private const string Total = "1 total 65 W";

    [Theory]
    [InlineData("When only one port is in use, C1 delivers up to 65W.", Alone)]
    [InlineData("Used on its own, C1 can deliver a maximum of 65W.", Alone)]
    [InlineData("Up to 65W is available from C1 when used alone.", Alone)]
    [InlineData("The maximum output of C1 is 65W.", Alone)]
    [InlineData("With C1 and C2 both connected, power is split into 45W at C1 and 20W at C2.", Both)]
    [InlineData("When a second device is plugged in, C1 falls to 45W and C2 supplies 20W.", Both)]
    [InlineData("Plugging in two devices reduces C1 to 45W, while C2 provides 20W.", Both)]
    [InlineData("Charging three devices at once gives you 40W from C1, 15W from C2 and 10W from A.", All)]
    [InlineData("With all three ports occupied you get 40W (C1), 15W (C2) and 10W (A).", All)]
    [InlineData("If C1, C2 and A are occupied at the same time, C1 gets 40W, C2 15W and A 10W.", All)]
    [InlineData("All ports together never exceed 65W.", Total)]
    [InlineData("Allein betrieben liefert der Port USB-C1 65 W.", Alone)]
    [InlineData("C1 kann bis zu 65 W abgeben, wenn kein anderer Port belegt ist.", Alone)]
    [InlineData("Werden C1 und C2 gleichzeitig genutzt, sinkt die Leistung auf 45 W an C1 und 20 W an C2.", Both)]
    [InlineData("Bei gleichzeitiger Verwendung beider USB-C-Anschlüsse stehen an C1 45 W und an C2 20 W zur Verfügung.", Both)]
    [InlineData("Im Doppelbetrieb gibt C1 45 W und C2 20 W ab.", Both)]
    [InlineData("Hängen an C1, C2 und A gleichzeitig Geräte, bekommen C1 40 W, C2 15 W und A 10 W.", All)]
    [InlineData("Mit allen drei Anschlüssen zugleich: C1 40 W, C2 15 W, A 10 W.", All)]
    [InlineData("Die Gesamtleistung aller Ausgänge ist auf 65 W begrenzt.", Total)]
    [InlineData("Zusammen gibt der Lader nie mehr als 65 W ab.", Total)]
    [InlineData("Utilisé seul, C1 peut délivrer 65 W au maximum.", Alone)]
    [InlineData("Avec deux appareils branchés, C1 passe à 45 W et C2 à 20 W.", Both)]
    [InlineData("Si C1, C2 et A sont occupés en même temps, C1 reçoit 40 W, C2 15 W et A 10 W.", All)]
    [InlineData("L'ensemble ne dépasse jamais 65 W au total.", Total)]
    [InlineData("Usado por separado, C1 puede suministrar 65 W como máximo.", Alone)]
    [InlineData("Con dos dispositivos conectados, C1 baja a 45 W y C2 a 20 W.", Both)]
    [InlineData("La potencia total de todos los puertos no supera los 65 W.", Total)]
    [InlineData("Da sola, la porta C1 eroga fino a 65 W.", Alone)]
    [InlineData("Quando si usano due porte insieme, C1 fornisce 45 W e C2 20 W.", Both)]
    [InlineData("La potenza totale di tutte le porte non supera 65 W.", Total)]
    [InlineData("Sozinha, a porta C1 fornece até 65 W.", Alone)]
    [InlineData("Se C1, C2 e A estiverem ocupadas ao mesmo tempo, C1 fornece 40 W, C2 15 W e A 10 W.", All)]
    [InlineData("Sam port C1 dostarcza do 65 W.", Alone)]
    [InlineData("Gdy C1, C2 i A są używane jednocześnie, C1 daje 40 W, C2 15 W, a A 10 W.", All)]
    [InlineData("Łączna moc wszystkich portów nie przekracza 65 W.", Total)]
    [InlineData("При использовании только порта C1 мощность до 65 Вт.", Alone)]
    [InlineData("При одновременном использовании C1 и C2 порт C1 выдаёт 45 Вт, а C2 — 20 Вт.", Both)]
    [InlineData("Суммарная мощность всех портов не превышает 65 Вт.", Total)]
    [InlineData("C1を単独で使用する場合は最大65Wです。", Alone)]
    [InlineData("C1とC2を同時に使用すると、C1は45W、C2は20Wになります。", Both)]
    [InlineData("3ポート同時使用時は、C1が40W、C2が15W、Aが10Wです。", All)]
    [InlineData("全ポート合計で最大65Wを超えません。", Total)]
    [InlineData("单独使用C1时最高可输出65W。", Alone)]
    [InlineData("两台设备同时充电时，C1降至45W，C2降至20W。", Both)]
    [InlineData("三个接口同时使用时，C1为40W，C2为15W，A为10W。", All)]
    [InlineData("所有接口总功率不超过65W。", Total)]
    [InlineData("C1 단독 사용 시 최대 65W입니다.", Alone)]
    [InlineData("C1과 C2를 동시에 사용하면 C1은 45W, C2는 20W를 출력합니다.", Both)]
    public void Sentence_IsReadAsItsPlainLine(string sentence, string expected) =>
        LineReading.Statements(LabelReader.Read(sentence)).Should().Equal(expected);

    [Theory]
    [InlineData("When only zorvik port is in use, C1 delivers up to 65W.")]
    [InlineData("Plugging in two devices zorviks C1 to 45W, while C2 provides 20W.")]
    [InlineData("Im Doppelbetrieb gibt C1 45 W und zorvik C2 20 W ab.")]
    // Two are used, three are rated; alone, and at once.
    [InlineData("With two devices connected you get 40W from C1, 15W from C2 and 10W from A.")]
    [InlineData("Used alone and at the same time C1 gives 45W and C2 20W.")]
    // Whose 65 W are shared?
    [InlineData("With C1, C2 and A in use, C1 gets 40W and C2 15W.")]
    public void SentenceThatMayMeanSomethingElse_IsNotRead(string sentence)
    {
        Label label = LabelReader.Read(sentence);

        LineReading.Statements(label).Should().BeEmpty();
        label.Unread.Should().NotBeEmpty();
    }

    // A pack takes power, too: "gets" names no direction there.
    [Fact]
    public void SentenceOfCharging_IsNoOutputOfAPack() => LineReading.Statements(LabelReader.Read("10000mAh 3.7V 37Wh\nUsed alone, C1 gets up to 65W."))
        .Should().NotContain(static one => one.Contains("max", StringComparison.Ordinal));

    [Fact]
    public void SentenceAboutOnePort_EndsTheConditionAbove() => LineReading.Statements(LabelReader.Read("Both ports in use: C1 45W, C2 20W\nAlone, C1 delivers up to 65W."))
        .Should().BeEquivalentTo(Both, "2 C1 max 65 W");
}
