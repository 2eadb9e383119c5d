using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Portwitness.Tests;
using Portwitness.Text.Yaml;

namespace Portwitness.Product.Tests;

/// <summary>The schema for editors takes what the reader takes. It is made of the reader's own members, or fails to be made.</summary>
public class ProductSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(ProductSchema.Text);

    public static TheoryData<string> DemoProducts =>
    [
        .. Directory.EnumerateFiles(Repository.PathOf("captures"), "product.yaml", SearchOption.AllDirectories)
            .Select(static file => Path.GetRelativePath(Repository.PathOf("captures"), Path.GetDirectoryName(file)!)),
    ];

    [Theory]
    [MemberData(nameof(DemoProducts))]
    public void DemoProducts_Fit(string folder) => Fits(File.ReadAllText(Repository.PathOf("captures", folder, "product.yaml"))).Should().BeTrue();

    [Theory]
    [InlineData("label: {file: label.txt}\ncaptures: [c1.capture.jsonl, {file: c2.csv, columns: {time: {column: 1, unit: ms}, hex: 3}}]\n", true)]
    [InlineData("ports: {C1: {cable: captive, also: [Type-C1]}}\nloads: [{port: A, at: 5V 3A, measured: 4.92V 3A, accuracy: {volts: 0.1%}}]\n", true)]
    [InlineData("ratings: {outputs: {C1: {modes: [5V 3A], maximum: 65W}}, battery: {rated: 6000mAh}}\nsignalling: {A: DCP, C: [UFCS]}\n", true)]
    [InlineData("offers: [{port: C1, photo: display.jpg, checked: true}]\n", true)]
    [InlineData("lable: x\n", false)]
    [InlineData("captures: [{fiel: x}]\n", false)]
    [InlineData("ports: {C1: {cable: fixed}}\n", false)]
    [InlineData("offers: [{port: C, lists: [5V 3A]}]\n", false)]
    public void WhatTheReaderTakes_Fits(string product, bool fits)
    {
        Fits(product).Should().Be(fits);
        ProductFileReader.Read(product).Faults.Any(static fault => fault.Code is ProductFaultCodes.MemberUnused or ProductFaultCodes.ValueWrong).Should().Be(!fits);
    }

    private static bool Fits(string yaml) => Schema.Evaluate(JsonDocument.Parse(Json(YamlTreeReader.Read(yaml)!).ToJsonString()).RootElement).IsValid;

    private static JsonNode Json(YamlNode node) => node switch
    {
        YamlMap map => new JsonObject(map.Entries.Select(static entry => KeyValuePair.Create(entry.Key.Text, (JsonNode?)Json(entry.Value)))),
        YamlList list => new JsonArray([.. list.Items.Select(Json)]),
        YamlText text => JsonValue.Create(text.Text),
        _ => throw new InvalidOperationException(node.ToString()),
    };
}
